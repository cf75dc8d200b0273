// SPDX-License-Identifier: MIT
#pragma once

namespace driftwarden {

// One line on the error stream, for which no memory is asked. The run is to end after it: threads run out of memory
// together, and whoever comes second waits for the end that the first brings.
void tell_no_memory();

// From here on, where a piece of memory can't be had, in whichever thread and for whatever library, the run ends at
// once: with that line, with `status`, and with nothing unfinished left. And where a fault of the program brings a
// signal, a line says so before it ends the run; files are then left alone, for the list of them may be wrong, too.
void have_last_words(int status);

}  // namespace driftwarden
