// SPDX-License-Identifier: MIT
// Runs a fuzz target without a fuzzing compiler: TARGET INPUTS CORPUS [DICTIONARY]. Every file of the corpus, then as
// many inputs altered from it, always the same ones. A child does the work, so that the input at which it died can be
// kept: it is written to TARGET.died, and TARGET 0 TARGET.died runs it again.
#include <sys/mman.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <random>
#include <string>
#include <vector>

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size);

namespace {

namespace fs = std::filesystem;
using Random = std::mt19937_64;  // the standard says which numbers follow from a seed

constexpr std::size_t longest_input = 8192;

std::string bytes_of(const fs::path& file) {
  std::ifstream in(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

std::vector<std::string> inputs_in(const fs::path& place) {
  if (!fs::is_directory(place)) return {bytes_of(place)};
  std::vector<fs::path> files(fs::directory_iterator(place), fs::directory_iterator{});
  std::sort(files.begin(), files.end());
  std::vector<std::string> inputs;
  std::transform(files.begin(), files.end(), std::back_inserter(inputs), bytes_of);
  return inputs;
}

// The words of a dictionary in the form that fuzzers read: "text" with \xNN, \" and \\.
std::vector<std::string> words_in(const fs::path& dictionary) {
  std::vector<std::string> words;
  std::ifstream lines(dictionary);
  for (std::string line; std::getline(lines, line);) {
    const std::size_t end = line.rfind('"');
    if (line.empty() || line.front() != '"' || end == 0) continue;
    std::string word;
    for (std::size_t i = 1; i < end; ++i) {
      if (line[i] != '\\') {
        word += line[i];
      } else if (line[i + 1] == 'x') {
        word += static_cast<char>(std::stoi(line.substr(i + 2, 2), nullptr, 16));
        i += 3;
      } else {
        word += line[++i];
      }
    }
    words.push_back(word);
  }
  return words;
}

class Alterations {
 public:
  Alterations(const std::vector<std::string>& corpus, const std::vector<std::string>& words)
      : corpus_(corpus), words_(words) {}

  // The same input for the same number, always.
  std::string input(std::size_t number) const {
    if (number < corpus_.size()) return corpus_[number];
    Random random(number);
    std::string input = corpus_[random() % corpus_.size()];
    for (std::size_t changes = 1 + random() % 4; changes > 0; --changes) alter(input, random);
    input.resize(std::min(input.size(), longest_input));
    return input;
  }

 private:
  void alter(std::string& input, Random& random) const {
    const std::size_t at = random() % (input.size() + 1);
    const std::size_t length = std::min<std::size_t>(random() % 16, input.size() - at);
    switch (random() % 7) {
      case 0:
        if (at < input.size()) input[at] = static_cast<char>(input[at] ^ (1 << random() % 8));
        break;
      case 1:
        input.insert(at, 1, static_cast<char>(random()));
        break;
      case 2:
        input.erase(at, length);
        break;
      case 3:
        input.insert(at, input.substr(at, length));
        break;
      case 4:
        if (!words_.empty()) input.insert(at, words_[random() % words_.size()]);
        break;
      case 5: {
        const std::string& other = corpus_[random() % corpus_.size()];
        input = input.substr(0, at) + other.substr(random() % (other.size() + 1));
        break;
      }
      default:
        input.resize(at);
    }
  }

  const std::vector<std::string>& corpus_;
  const std::vector<std::string>& words_;
};

void run(const std::string& input) {
  LLVMFuzzerTestOneInput(reinterpret_cast<const std::uint8_t*>(input.data()), input.size());
}

}  // namespace

int main(int count, char** words) {
  if (count < 3) return std::fprintf(stderr, "usage: %s INPUTS CORPUS [DICTIONARY]\n", words[0]), 2;
  const std::vector<std::string> corpus = inputs_in(words[2]);
  const std::vector<std::string> dictionary = count > 3 ? words_in(words[3]) : std::vector<std::string>();
  if (corpus.empty()) return std::fprintf(stderr, "%s: no corpus\n", words[2]), 2;
  const std::size_t inputs = corpus.size() + std::stoul(words[1]);
  const Alterations alterations(corpus, dictionary);
  auto* at = static_cast<std::size_t*>(
      mmap(nullptr, sizeof(std::size_t), PROT_READ | PROT_WRITE, MAP_SHARED | MAP_ANONYMOUS, -1, 0));
  if (at == MAP_FAILED) return std::perror("mmap"), 2;
  const pid_t child = fork();
  if (child == 0) {
    for (*at = 0; *at < inputs; ++*at) run(alterations.input(*at));
    std::exit(0);  // what the target keeps for all inputs cleans up after itself
  }
  int status = 0;
  waitpid(child, &status, 0);
  if (status == 0) return std::printf("%zu inputs, nothing found\n", inputs), 0;
  const std::string kept = fs::path(words[0]).filename().string() + ".died";
  std::ofstream(kept, std::ios::binary) << alterations.input(*at);
  std::fprintf(stderr, "input %zu: the target died (status %d); it is kept in %s\n", *at, status, kept.c_str());
  return 1;
}
