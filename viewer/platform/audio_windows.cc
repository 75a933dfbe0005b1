// Sound through waveOut, which every Windows has: a thread fills one buffer while others are heard.

#include <array>
#include <atomic>
#include <thread>
#include <utility>
#include <vector>

#include <windows.h>

#include "viewer/platform/audio.h"

namespace plumbline::platform {
namespace {

constexpr WORD kFloats = 3;  // WAVE_FORMAT_IEEE_FLOAT of mmreg.h
constexpr DWORD kRate_hz = 48000;
constexpr std::size_t kFramesAtOnce = 1024;  // chosen: a fiftieth of a second
constexpr std::size_t kBuffers = 4;  // chosen: fewer stutter, the system mixes in tens of ms

class WaveOutput final : public AudioOutput {
public:
    explicit WaveOutput(Fill fill) : fill_(std::move(fill)) {}
    WaveOutput(const WaveOutput&) = delete;
    WaveOutput& operator=(const WaveOutput&) = delete;
    ~WaveOutput() override {
        ends_ = true;
        if (thread_.joinable()) {
            SetEvent(played_);
            thread_.join();
        }
        if (device_ != nullptr) {
            waveOutReset(device_);
            for (Buffer& buffer : buffers_)
                waveOutUnprepareHeader(device_, &buffer.header, sizeof(WAVEHDR));
            waveOutClose(device_);
        }
        if (played_ != nullptr) CloseHandle(played_);
    }
    bool begin() {
        played_ = CreateEventW(nullptr, FALSE, FALSE, nullptr);
        if (played_ == nullptr) return false;
        WAVEFORMATEX format{};
        format.wFormatTag = kFloats;
        format.nChannels = 2;
        format.nSamplesPerSec = kRate_hz;
        format.wBitsPerSample = 32;
        format.nBlockAlign = 2 * sizeof(float);
        format.nAvgBytesPerSec = kRate_hz * format.nBlockAlign;
        if (waveOutOpen(&device_, WAVE_MAPPER, &format, reinterpret_cast<DWORD_PTR>(played_), 0,
                        CALLBACK_EVENT) != MMSYSERR_NOERROR) {
            device_ = nullptr;
            return false;
        }
        for (Buffer& buffer : buffers_) {
            buffer.samples.assign(2 * kFramesAtOnce, 0.0F);
            buffer.header.lpData = reinterpret_cast<LPSTR>(buffer.samples.data());
            buffer.header.dwBufferLength =
                static_cast<DWORD>(buffer.samples.size() * sizeof(float));
            if (waveOutPrepareHeader(device_, &buffer.header, sizeof(WAVEHDR)) != MMSYSERR_NOERROR)
                return false;
            buffer.header.dwFlags |= WHDR_DONE;
        }
        thread_ = std::thread([this] { play(); });
        return true;
    }
    double latency_s() const override {
        return static_cast<double>(kBuffers * kFramesAtOnce) / kRate_hz;
    }

private:
    struct Buffer {
        std::vector<float> samples;
        WAVEHDR header{};
    };

    void play() {
        SetThreadPriority(GetCurrentThread(), THREAD_PRIORITY_HIGHEST);
        for (std::size_t next = 0; !ends_;) {
            Buffer& buffer = buffers_[next];
            if ((buffer.header.dwFlags & WHDR_DONE) == 0) {
                WaitForSingleObject(played_, 200);
                continue;
            }
            fill_(buffer.samples, kRate_hz);
            buffer.header.dwFlags &= ~static_cast<DWORD>(WHDR_DONE);
            // A device that was pulled out: silence, and the thread rests.
            if (waveOutWrite(device_, &buffer.header, sizeof(WAVEHDR)) != MMSYSERR_NOERROR) return;
            next = (next + 1) % kBuffers;
        }
    }

    Fill fill_;
    HANDLE played_ = nullptr;
    HWAVEOUT device_ = nullptr;
    std::array<Buffer, kBuffers> buffers_;
    std::atomic<bool> ends_{false};
    std::thread thread_;
};

}  // namespace

std::unique_ptr<AudioOutput> AudioOutput::open(Fill fill) {
    auto output = std::make_unique<WaveOutput>(std::move(fill));
    if (!output->begin()) return nullptr;
    return output;
}

}  // namespace plumbline::platform
