# What a package holds beyond the program: manual page, completion, changelog, licences; and how CPack makes a .deb of it
# (package/deb does it all). Nothing here depends on the day or the folder: same sources and tools, same bytes.
if(NOT UNIX OR CMAKE_CROSSCOMPILING OR NOT PLUMBLINE_VIEWER)
  return()
endif()

# Name, version and date stand in the changelog's first and last lines.
set(package_changelog ${CMAKE_CURRENT_LIST_DIR}/changelog)
set_property(DIRECTORY APPEND PROPERTY CMAKE_CONFIGURE_DEPENDS ${package_changelog})
file(STRINGS ${package_changelog} changelog_lines)
list(GET changelog_lines 0 changelog_first)
if(NOT changelog_first MATCHES "^plumbline \\(${PROJECT_VERSION}-([0-9]+)\\)")
  message(FATAL_ERROR "package/changelog begins with another version than ${PROJECT_VERSION}: ${changelog_first}")
endif()
set(package_revision ${CMAKE_MATCH_1})

set(described ${CMAKE_BINARY_DIR}/package)
set(described_files ${described}/plumbline.1 ${described}/plumbline.bash ${described}/plumbline.fish ${described}/_plumbline)
add_custom_command(OUTPUT ${described_files} ${described}/plumbline.1.gz ${described}/changelog.Debian.gz
  COMMAND ${Python3_EXECUTABLE} ${CMAKE_CURRENT_LIST_DIR}/describe.py $<TARGET_FILE:plumbline> ${PROJECT_VERSION} ${described}
  COMMAND gzip -9nc ${described}/plumbline.1 > ${described}/plumbline.1.gz
  COMMAND gzip -9nc ${package_changelog} > ${described}/changelog.Debian.gz
  DEPENDS plumbline ${CMAKE_CURRENT_LIST_DIR}/describe.py ${package_changelog}
  COMMENT "Describing the program as a manual page and shell completion" VERBATIM)
add_custom_target(plumbline_described ALL DEPENDS ${described_files})

install(FILES ${described}/plumbline.1.gz DESTINATION ${CMAKE_INSTALL_MANDIR}/man1)
install(FILES ${described}/plumbline.bash DESTINATION ${CMAKE_INSTALL_DATADIR}/bash-completion/completions RENAME plumbline)
install(FILES ${described}/plumbline.fish DESTINATION ${CMAKE_INSTALL_DATADIR}/fish/vendor_completions.d)
install(FILES ${described}/_plumbline DESTINATION ${CMAKE_INSTALL_DATADIR}/zsh/vendor-completions)
install(FILES ${described}/changelog.Debian.gz DESTINATION ${CMAKE_INSTALL_DOCDIR})

set(desktop ${CMAKE_SOURCE_DIR}/assets/desktop)
install(FILES ${desktop}/plumbline.desktop DESTINATION ${CMAKE_INSTALL_DATADIR}/applications)
install(FILES ${desktop}/plumbline.metainfo.xml DESTINATION ${CMAKE_INSTALL_DATADIR}/metainfo)
install(FILES ${desktop}/plumbline.xml DESTINATION ${CMAKE_INSTALL_DATADIR}/mime/packages)
install(FILES ${desktop}/plumbline.svg DESTINATION ${CMAKE_INSTALL_DATADIR}/icons/hicolor/scalable/apps)
foreach(size IN ITEMS 48 128)
  install(FILES ${desktop}/plumbline-${size}.png DESTINATION ${CMAKE_INSTALL_DATADIR}/icons/hicolor/${size}x${size}/apps
    RENAME plumbline.png)
endforeach()

# The page for a browser, which briefs are sent as, where it was built.
set(PLUMBLINE_PAGE ${CMAKE_SOURCE_DIR}/build/page/bin/plumbline.html CACHE FILEPATH "The page for a browser, if there is one")
install(FILES ${PLUMBLINE_PAGE} DESTINATION ${CMAKE_INSTALL_DATADIR}/plumbline OPTIONAL RENAME plumbline.html)

# The distribution a package was built on is a part of its version: its libraries are that distribution's.
set(suite local)
if(EXISTS /etc/os-release)
  file(STRINGS /etc/os-release os_release)
  foreach(line IN LISTS os_release)
    if(line MATCHES "^(ID|VERSION_ID)=\"?([a-z0-9.]+)\"?$")
      set(os_${CMAKE_MATCH_1} ${CMAKE_MATCH_2})
    endif()
  endforeach()
  string(REPLACE "debian" "deb" suite "${os_ID}${os_VERSION_ID}")
endif()

set(CPACK_GENERATOR DEB)
set(CPACK_PACKAGE_NAME plumbline)
set(CPACK_PACKAGE_VERSION ${PROJECT_VERSION})
set(CPACK_PACKAGE_CONTACT "The Plumbline authors <plumbline@example.org>")
set(CPACK_PACKAGE_DIRECTORY ${CMAKE_BINARY_DIR})
set(CPACK_PACKAGING_INSTALL_PREFIX /usr)
set(CPACK_STRIP_FILES ON)
set(CPACK_INSTALL_DEFAULT_DIRECTORY_PERMISSIONS OWNER_READ OWNER_WRITE OWNER_EXECUTE GROUP_READ GROUP_EXECUTE WORLD_READ WORLD_EXECUTE)
set(CPACK_DEBIAN_FILE_NAME DEB-DEFAULT)
set(CPACK_DEBIAN_PACKAGE_RELEASE ${package_revision}+${suite})
set(CPACK_DEBIAN_PACKAGE_SECTION science)
set(CPACK_DEBIAN_PACKAGE_PRIORITY optional)
set(CPACK_DEBIAN_PACKAGE_CONTROL_STRICT_PERMISSION ON)
set(CPACK_DEBIAN_COMPRESSION_TYPE xz)
# What is linked is found by dpkg-shlibdeps; the graphics driver's libraries are opened while running.
set(CPACK_DEBIAN_PACKAGE_SHLIBDEPS ON)
set(CPACK_DEBIAN_PACKAGE_DEPENDS "libegl1, libgl1, libgl1-mesa-dri")
set(CPACK_DEBIAN_PACKAGE_RECOMMENDS "ffmpeg, espeak-ng")
set(CPACK_PACKAGE_DESCRIPTION_SUMMARY "plan, preview and review a low-level solo aerobatic display")
set(CPACK_DEBIAN_PACKAGE_DESCRIPTION
"Plumbline flies a routine of figures, written as plain text, with a model of
the aircraft at a site on a day, and shows it in 3-D and in numbers: from the
crowd line, the judge's seat and the cockpit. It checks the routine against
the site, the airframe and the fuel, prints what pilot, narrator and display
director need, and replays what a logger recorded in the same picture.

It is a planning and training aid with a simplified model and approves
nothing: limits come from the aircraft's documents, the display authority and
a licensed evaluator.")
include(CPack)
