# SPDX-License-Identifier: MIT
# bash completion of driftwarden: the program itself knows its commands, and the book its names.
_driftwarden() {
  local word
  COMPREPLY=()
  while IFS= read -r word; do
    COMPREPLY+=("$(printf '%q' "$word")")
  done < <("${COMP_WORDS[0]}" complete -- "${COMP_WORDS[@]:1:COMP_CWORD}" 2>/dev/null)
}
complete -o bashdefault -o default -F _driftwarden driftwarden
