#pragma once
// Never a lost edit: puts unsaved texts aside, brings them back after a crash, saves, and sees when
// a file was changed by somebody else.

#include <filesystem>
#include <map>
#include <string>
#include <utility>

#include "engine/system/file_claim.h"
#include "viewer/model/model.h"

namespace plumbline::model {

class Keeper {
public:
    /// @param folder  for what is put aside; empty: nothing is (pictures, tests)
    explicit Keeper(std::filesystem::path folder) : folder_(std::move(folder)) {}

    /// A routine was opened: its text can be written from now on, and what an earlier window did
    /// not save is back in it.
    /// @param text  the file's bytes
    void opened(Model& model, const std::filesystem::path& file, std::string text, bool built_in);
    /// A recording was opened: nothing to write.
    void closed(Model& model);

    /// Once a frame: puts aside what has rested for a moment, looks at the files once a second.
    void tick(Model& model, double elapsed_s);
    /// At once, before anything that could end the program.
    /// @return why it could not, or nothing
    std::string putAside(const Model& model);
    /// The same; a failure is said.
    /// @return all that is unsaved is safe
    bool putAsideOrSay(Model& model);

    /// The changes are not wanted any more: nothing of them comes back.
    void giveUp(Model& model);

    /// True once after a file that the routine names, but that is not written here, was changed on
    /// the disk.
    bool takeWorldChanged() { return std::exchange(world_changed_, false); }

    /// Writes every changed file. What somebody else wrote meanwhile is merged, or asked about.
    /// @return saved; else the model's message or question says why not
    bool save(Model& model);
    /// With the files that a built-in routine needs beside it, where they are not there; another
    /// one's names of files become those that stand for the same files from there.
    bool saveAs(Model& model, const std::filesystem::path& file);
    /// Takes what is on the disk; can be undone.
    void takeTheirs(Model& model);
    /// The next save writes over what somebody else wrote.
    void keepMine(Model& model);

    /// The window closes with nothing unsaved, or its changes given up.
    void finish(const Model& model);

private:
    void claim(const std::string& name);
    void bringBack(Model& model);
    void look(Model& model);
    void lookAtOthers(Model& model);
    void putAsideNow(Model& model);
    bool writeBeside(Model& model, const std::filesystem::path& folder);
    std::filesystem::path keptFile() const;

    std::filesystem::path folder_;
    system::FileClaim claim_;
    std::string claimed_name_;
    int window_ = -1;
    std::uint64_t kept_revision_ = 0;  ///< of the text put aside last
    std::uint64_t seen_revision_ = 0;
    double rested_s_ = 0;
    double unkept_s_ = 0;
    std::string unkept_reason_;  ///< why what is unsaved could not be put aside, as it was said
    double looked_s_ = 0;
    bool on_disk_ = false;
    bool world_changed_ = false;
    std::map<std::filesystem::path, std::filesystem::file_time_type> others_;  ///< as seen last
};

}  // namespace plumbline::model
