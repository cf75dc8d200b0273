# SPDX-License-Identifier: MIT
# fish completion of driftwarden: the program itself knows its commands, and the book its names.
complete -c driftwarden -a '(set -l words (commandline -opc) (commandline -ct); $words[1] complete -- $words[2..-1] 2>/dev/null)'
