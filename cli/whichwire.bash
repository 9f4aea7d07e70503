# Completion of whichwire for bash.
_whichwire() {
  local word=${COMP_WORDS[COMP_CWORD]} before=${COMP_WORDS[COMP_CWORD - 1]} options
  COMPREPLY=()
  if ((COMP_CWORD == 1)); then
    mapfile -t COMPREPLY < <(compgen -W "locate check draw codes predict compare blindspots fleet rates case --help --version" -- "$word")
    return
  fi
  case $before in
    --mode)
      mapfile -t COMPREPLY < <(compgen -W "volts volts-loaded volts-drop volts-ac ohms amps lamp look wiggle light unplug ask" -- "$word")
      return
      ;;
    --as) mapfile -t COMPREPLY < <(compgen -W "text csv json ndjson" -- "$word"); return ;;
    --for) mapfile -t COMPREPLY < <(compgen -W "colleague customer" -- "$word"); return ;;
    --bus) mapfile -t COMPREPLY < <(compgen -W "awake asleep" -- "$word"); return ;;
    --key) mapfile -t COMPREPLY < <(compgen -W "off accessory run start" -- "$word"); return ;;
    --threads | --outside | --most | --fault | --at | --note | --unit | --complaint | --since | --conditions | --repaired | --works | \
      --works-not | --added | --rules-out | --check) return ;;
  esac
  if [[ ${COMP_WORDS[1]} == case ]]; then
    if ((COMP_CWORD == 2)); then
      mapfile -t COMPREPLY < <(compgen -W "start scan reading unplug replug fuse-out fuse-in jumper replaced programmed note undo next guide close status report --help" -- "$word")
      return
    fi
    case ${COMP_WORDS[2]} in
      start) options="--unit --complaint --since --conditions --repaired --works --works-not --added --battery --at --help" ;;
      scan) options="--at --key --own-battery --help" ;;
      reading) options="--at --mode --key --battery --bus --check --rules-out --as-written --rates --note --help" ;;
      unplug | replug | fuse-out | fuse-in) options="--at --as-written --note --help" ;;
      jumper) options="--at --off --note --help" ;;
      replaced | programmed | close) options="--at --note --help" ;;
      note) options="--at --fault --rules-out --help" ;;
      undo) options="--at --help" ;;
      guide) options="--rates --help" ;;
      next | status) options="--rates --json --help" ;;
      report) options="--for --rates --markdown --html --output --help" ;;
      *) options="" ;;
    esac
  fi
  if [[ ${COMP_WORDS[1]} == rates ]]; then
    if ((COMP_CWORD == 2)); then
      mapfile -t COMPREPLY < <(compgen -W "learn --help" -- "$word")
      return
    fi
    options="--output --rates --help"
  fi
  case ${COMP_WORDS[1]} in
    case | rates) ;;
    locate) options="--json --html --output --lines --key --own-battery --rates --outside --most --exit-code --help" ;;
    check) options="--network --json --help" ;;
    draw) options="--scan --feeds --brief --paper --rates --output --help" ;;
    codes) options="--json --help" ;;
    fleet) options="--network --as --html --output --rows --resume --independent --all --rates --threads --exit-code --help" ;;
    blindspots) options="--all --rates --json --help" ;;
    compare) options="--scan --all --rates --json --svg --brief --paper --output --help" ;;
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
