# Print an optspec for argparse to handle cmd's options that are independent of any subcommand.
function __fish_shirr_global_optspecs
    string join \n plain echo workshop= h/help V/version
end

function __fish_shirr_needs_command
    # Figure out if the current invocation already has a command.
    set -l cmd (commandline -opc)
    set -e cmd[1]
    argparse -s (__fish_shirr_global_optspecs) -- $cmd 2>/dev/null
    or return
    if set -q argv[1]
        # Also print the command, so this can be used to figure out what it is.
        echo $argv[1]
        return 1
    end
    return 0
end

function __fish_shirr_using_subcommand
    set -l cmd (__fish_shirr_needs_command)
    test -z "$cmd"
    and return 1
    contains -- $cmd[1] $argv
end

complete -c shirr -n "__fish_shirr_needs_command" -l workshop -d 'The workshop\'s folder [default: this folder if it has workshop files, else the user\'s own]' -r -F
complete -c shirr -n "__fish_shirr_needs_command" -l plain -d 'Words instead of signs, no box art: to be read aloud'
complete -c shirr -n "__fish_shirr_needs_command" -l echo -d 'Show each line that comes from a pipe before its answer'
complete -c shirr -n "__fish_shirr_needs_command" -s h -l help -d 'Print help (see more with \'--help\')'
complete -c shirr -n "__fish_shirr_needs_command" -s V -l version -d 'Print version'
complete -c shirr -n "__fish_shirr_needs_command" -f -a "reckon" -d 'Work out expressions: shirr reckon \'14 1/2 in + 7/8 in\' \'100 cm as in\''
complete -c shirr -n "__fish_shirr_needs_command" -f -a "draft" -d 'Write a short recipe to begin with, or a copy of another to change'
complete -c shirr -n "__fish_shirr_needs_command" -f -a "parcel" -d 'Put a recipe and its helper files into one file, to pass on'
complete -c shirr -n "__fish_shirr_needs_command" -f -a "reference" -d 'Write the reference, recipes with pictures, functions and words, into a folder'
complete -c shirr -n "__fish_shirr_needs_command" -f -a "page" -d 'Work out a page and show what each line is worth'
complete -c shirr -n "__fish_shirr_needs_command" -f -a "run" -d 'Run a recipe for one order and show its tables'
complete -c shirr -n "__fish_shirr_needs_command" -f -a "recipes" -d 'List the recipes, or those about a word'
complete -c shirr -n "__fish_shirr_needs_command" -f -a "describe" -d 'Tell what a recipe makes and asks'
complete -c shirr -n "__fish_shirr_needs_command" -f -a "check" -d 'Check recipes: their text in every branch, their examples, sizes at the ends of their ranges and between'
complete -c shirr -n "__fish_shirr_needs_command" -f -a "sheet" -d 'Show the work sheet of an order'
complete -c shirr -n "__fish_shirr_needs_command" -f -a "cut" -d 'Plan a list of pieces onto the lengths there are: shirr cut pieces.csv --from lengths.csv'
complete -c shirr -n "__fish_shirr_needs_command" -f -a "help" -d 'Explain a word as at the prompt; without one, print this message'
complete -c shirr -n "__fish_shirr_using_subcommand reckon" -l workshop -d 'The workshop\'s folder [default: this folder if it has workshop files, else the user\'s own]' -r -F
complete -c shirr -n "__fish_shirr_using_subcommand reckon" -l plain -d 'Words instead of signs, no box art: to be read aloud'
complete -c shirr -n "__fish_shirr_using_subcommand reckon" -s h -l help -d 'Print help'
complete -c shirr -n "__fish_shirr_using_subcommand draft" -l like -d 'The recipe to copy' -r
complete -c shirr -n "__fish_shirr_using_subcommand draft" -l workshop -d 'The workshop\'s folder [default: this folder if it has workshop files, else the user\'s own]' -r -F
complete -c shirr -n "__fish_shirr_using_subcommand draft" -l plain -d 'Words instead of signs, no box art: to be read aloud'
complete -c shirr -n "__fish_shirr_using_subcommand draft" -s h -l help -d 'Print help'
complete -c shirr -n "__fish_shirr_using_subcommand parcel" -l workshop -d 'The workshop\'s folder [default: this folder if it has workshop files, else the user\'s own]' -r -F
complete -c shirr -n "__fish_shirr_using_subcommand parcel" -l plain -d 'Words instead of signs, no box art: to be read aloud'
complete -c shirr -n "__fish_shirr_using_subcommand parcel" -s h -l help -d 'Print help'
complete -c shirr -n "__fish_shirr_using_subcommand reference" -l workshop -d 'The workshop\'s folder [default: this folder if it has workshop files, else the user\'s own]' -r -F
complete -c shirr -n "__fish_shirr_using_subcommand reference" -l plain -d 'Words instead of signs, no box art: to be read aloud'
complete -c shirr -n "__fish_shirr_using_subcommand reference" -s h -l help -d 'Print help'
complete -c shirr -n "__fish_shirr_using_subcommand page" -l workshop -d 'The workshop\'s folder [default: this folder if it has workshop files, else the user\'s own]' -r -F
complete -c shirr -n "__fish_shirr_using_subcommand page" -l plain -d 'Words instead of signs, no box art: to be read aloud'
complete -c shirr -n "__fish_shirr_using_subcommand page" -s h -l help -d 'Print help'
complete -c shirr -n "__fish_shirr_using_subcommand run" -l csv -d 'Leave the tables as CSV files in this folder' -r -F
complete -c shirr -n "__fish_shirr_using_subcommand run" -l workshop -d 'The workshop\'s folder [default: this folder if it has workshop files, else the user\'s own]' -r -F
complete -c shirr -n "__fish_shirr_using_subcommand run" -l anyway -d 'Run a recipe that its check found fault with'
complete -c shirr -n "__fish_shirr_using_subcommand run" -l all -d 'Show every table, step and caution, not the first screen alone'
complete -c shirr -n "__fish_shirr_using_subcommand run" -l plain -d 'Words instead of signs, no box art: to be read aloud'
complete -c shirr -n "__fish_shirr_using_subcommand run" -s h -l help -d 'Print help'
complete -c shirr -n "__fish_shirr_using_subcommand recipes" -l workshop -d 'The workshop\'s folder [default: this folder if it has workshop files, else the user\'s own]' -r -F
complete -c shirr -n "__fish_shirr_using_subcommand recipes" -l plain -d 'Words instead of signs, no box art: to be read aloud'
complete -c shirr -n "__fish_shirr_using_subcommand recipes" -s h -l help -d 'Print help'
complete -c shirr -n "__fish_shirr_using_subcommand describe" -l workshop -d 'The workshop\'s folder [default: this folder if it has workshop files, else the user\'s own]' -r -F
complete -c shirr -n "__fish_shirr_using_subcommand describe" -l plain -d 'Words instead of signs, no box art: to be read aloud'
complete -c shirr -n "__fish_shirr_using_subcommand describe" -s h -l help -d 'Print help'
complete -c shirr -n "__fish_shirr_using_subcommand check" -l workshop -d 'The workshop\'s folder [default: this folder if it has workshop files, else the user\'s own]' -r -F
complete -c shirr -n "__fish_shirr_using_subcommand check" -l watch -d 'Check again each time a file of theirs is saved, until Ctrl-C'
complete -c shirr -n "__fish_shirr_using_subcommand check" -l plain -d 'Words instead of signs, no box art: to be read aloud'
complete -c shirr -n "__fish_shirr_using_subcommand check" -s h -l help -d 'Print help'
complete -c shirr -n "__fish_shirr_using_subcommand sheet" -l workshop -d 'The workshop\'s folder [default: this folder if it has workshop files, else the user\'s own]' -r -F
complete -c shirr -n "__fish_shirr_using_subcommand sheet" -l anyway -d 'Run a recipe that its check found fault with'
complete -c shirr -n "__fish_shirr_using_subcommand sheet" -l plain -d 'Words instead of signs, no box art: to be read aloud'
complete -c shirr -n "__fish_shirr_using_subcommand sheet" -s h -l help -d 'Print help'
complete -c shirr -n "__fish_shirr_using_subcommand cut" -l from -d 'The lengths, as CSV: stock, count, along, price, and for cloth across, nap' -r -F
complete -c shirr -n "__fish_shirr_using_subcommand cut" -l csv -d 'Leave the tables as CSV files, and a picture of the lay, in this folder' -r -F
complete -c shirr -n "__fish_shirr_using_subcommand cut" -l loss -d 'What is lost at each cut, such as \'1/8 in\'' -r
complete -c shirr -n "__fish_shirr_using_subcommand cut" -l squaring -d 'What squaring takes off each end of a length' -r
complete -c shirr -n "__fish_shirr_using_subcommand cut" -l keep -d 'Leftovers at least so long are kept [default: the workshop\'s smallest remnant]' -r
complete -c shirr -n "__fish_shirr_using_subcommand cut" -l like -d 'Cuts of this plan.csv, written before, stay where they are' -r -F
complete -c shirr -n "__fish_shirr_using_subcommand cut" -l steps -d 'How hard to look: a million steps take about a second' -r
complete -c shirr -n "__fish_shirr_using_subcommand cut" -l seconds -d 'Look for so many seconds instead, and take the best found by then' -r
complete -c shirr -n "__fish_shirr_using_subcommand cut" -l seed -d 'Begin the search in another place' -r
complete -c shirr -n "__fish_shirr_using_subcommand cut" -l workshop -d 'The workshop\'s folder [default: this folder if it has workshop files, else the user\'s own]' -r -F
complete -c shirr -n "__fish_shirr_using_subcommand cut" -l straight -d 'Cut straight from edge to edge only, as cloth is torn'
complete -c shirr -n "__fish_shirr_using_subcommand cut" -l folded -d 'Cut on cloth folded lengthwise, selvedge on selvedge'
complete -c shirr -n "__fish_shirr_using_subcommand cut" -l plain -d 'Words instead of signs, no box art: to be read aloud'
complete -c shirr -n "__fish_shirr_using_subcommand cut" -s h -l help -d 'Print help'
complete -c shirr -n "__fish_shirr_using_subcommand help" -l workshop -d 'The workshop\'s folder [default: this folder if it has workshop files, else the user\'s own]' -r -F
complete -c shirr -n "__fish_shirr_using_subcommand help" -l plain -d 'Words instead of signs, no box art: to be read aloud'
complete -c shirr -n "__fish_shirr_using_subcommand help" -s h -l help -d 'Print help'
