# Completion of whichwire for bash.
_whichwire() {
  local word=${COMP_WORDS[COMP_CWORD]} before=${COMP_WORDS[COMP_CWORD - 1]} options
  COMPREPLY=()
  if ((COMP_CWORD == 1)); then
    mapfile -t COMPREPLY < <(compgen -W "locate check codes predict --help --version" -- "$word")
    return
  fi
  case $before in
    --key) mapfile -t COMPREPLY < <(compgen -W "off accessory run start" -- "$word"); return ;;
    --outside | --most | --fault) return ;;
  esac
  case ${COMP_WORDS[1]} in
    locate) options="--json --lines --key --own-battery --rates --outside --most --exit-code --help" ;;
    check) options="--network --json --help" ;;
    codes) options="--json --help" ;;
    predict) options="--fault --key --own-battery --scan-out --rates --json --help" ;;
    *) options="" ;;
  esac
  if [[ $word == -* ]]; then
    mapfile -t COMPREPLY < <(compgen -W "$options" -- "$word")
  elif [[ ${COMP_WORDS[1]} != codes ]]; then
    compopt -o filenames
    mapfile -t COMPREPLY < <(compgen -f -- "$word")
  fi
}
complete -F _whichwire whichwire
