# What the viewer needs beyond the engine.
function(plumbline_viewer_dependencies)
endfunction()
