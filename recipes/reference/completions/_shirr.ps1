
using namespace System.Management.Automation
using namespace System.Management.Automation.Language

Register-ArgumentCompleter -Native -CommandName 'shirr' -ScriptBlock {
    param($wordToComplete, $commandAst, $cursorPosition)

    $commandElements = $commandAst.CommandElements
    $command = @(
        'shirr'
        for ($i = 1; $i -lt $commandElements.Count; $i++) {
            $element = $commandElements[$i]
            if ($element -isnot [StringConstantExpressionAst] -or
                $element.StringConstantType -ne [StringConstantType]::BareWord -or
                $element.Value.StartsWith('-') -or
                $element.Value -eq $wordToComplete) {
                break
        }
        $element.Value
    }) -join ';'

    $completions = @(switch ($command) {
        'shirr' {
            [CompletionResult]::new('--workshop', '--workshop', [CompletionResultType]::ParameterName, 'The workshop''s folder [default: this folder if it has workshop files, else the user''s own]')
            [CompletionResult]::new('--plain', '--plain', [CompletionResultType]::ParameterName, 'Words instead of signs, no box art: to be read aloud')
            [CompletionResult]::new('--echo', '--echo', [CompletionResultType]::ParameterName, 'Show each line that comes from a pipe before its answer')
            [CompletionResult]::new('-h', '-h', [CompletionResultType]::ParameterName, 'Print help (see more with ''--help'')')
            [CompletionResult]::new('--help', '--help', [CompletionResultType]::ParameterName, 'Print help (see more with ''--help'')')
            [CompletionResult]::new('-V', '-V ', [CompletionResultType]::ParameterName, 'Print version')
            [CompletionResult]::new('--version', '--version', [CompletionResultType]::ParameterName, 'Print version')
            [CompletionResult]::new('reckon', 'reckon', [CompletionResultType]::ParameterValue, 'Work out expressions: shirr reckon ''14 1/2 in + 7/8 in'' ''100 cm as in''')
            [CompletionResult]::new('draft', 'draft', [CompletionResultType]::ParameterValue, 'Write a short recipe to begin with, or a copy of another to change')
            [CompletionResult]::new('parcel', 'parcel', [CompletionResultType]::ParameterValue, 'Put a recipe and its helper files into one file, to pass on')
            [CompletionResult]::new('reference', 'reference', [CompletionResultType]::ParameterValue, 'Write the reference, recipes with pictures, functions and words, into a folder')
            [CompletionResult]::new('page', 'page', [CompletionResultType]::ParameterValue, 'Work out a page and show what each line is worth')
            [CompletionResult]::new('run', 'run', [CompletionResultType]::ParameterValue, 'Run a recipe for one order and show its tables')
            [CompletionResult]::new('recipes', 'recipes', [CompletionResultType]::ParameterValue, 'List the recipes, or those about a word')
            [CompletionResult]::new('describe', 'describe', [CompletionResultType]::ParameterValue, 'Tell what a recipe makes and asks')
            [CompletionResult]::new('check', 'check', [CompletionResultType]::ParameterValue, 'Check recipes: their text in every branch, their examples, sizes at the ends of their ranges and between')
            [CompletionResult]::new('sheet', 'sheet', [CompletionResultType]::ParameterValue, 'Show the work sheet of an order')
            [CompletionResult]::new('cut', 'cut', [CompletionResultType]::ParameterValue, 'Plan a list of pieces onto the lengths there are: shirr cut pieces.csv --from lengths.csv')
            [CompletionResult]::new('help', 'help', [CompletionResultType]::ParameterValue, 'Explain a word as at the prompt; without one, print this message')
            break
        }
        'shirr;reckon' {
            [CompletionResult]::new('--workshop', '--workshop', [CompletionResultType]::ParameterName, 'The workshop''s folder [default: this folder if it has workshop files, else the user''s own]')
            [CompletionResult]::new('--plain', '--plain', [CompletionResultType]::ParameterName, 'Words instead of signs, no box art: to be read aloud')
            [CompletionResult]::new('-h', '-h', [CompletionResultType]::ParameterName, 'Print help')
            [CompletionResult]::new('--help', '--help', [CompletionResultType]::ParameterName, 'Print help')
            break
        }
        'shirr;draft' {
            [CompletionResult]::new('--like', '--like', [CompletionResultType]::ParameterName, 'The recipe to copy')
            [CompletionResult]::new('--workshop', '--workshop', [CompletionResultType]::ParameterName, 'The workshop''s folder [default: this folder if it has workshop files, else the user''s own]')
            [CompletionResult]::new('--plain', '--plain', [CompletionResultType]::ParameterName, 'Words instead of signs, no box art: to be read aloud')
            [CompletionResult]::new('-h', '-h', [CompletionResultType]::ParameterName, 'Print help')
            [CompletionResult]::new('--help', '--help', [CompletionResultType]::ParameterName, 'Print help')
            break
        }
        'shirr;parcel' {
            [CompletionResult]::new('--workshop', '--workshop', [CompletionResultType]::ParameterName, 'The workshop''s folder [default: this folder if it has workshop files, else the user''s own]')
            [CompletionResult]::new('--plain', '--plain', [CompletionResultType]::ParameterName, 'Words instead of signs, no box art: to be read aloud')
            [CompletionResult]::new('-h', '-h', [CompletionResultType]::ParameterName, 'Print help')
            [CompletionResult]::new('--help', '--help', [CompletionResultType]::ParameterName, 'Print help')
            break
        }
        'shirr;reference' {
            [CompletionResult]::new('--workshop', '--workshop', [CompletionResultType]::ParameterName, 'The workshop''s folder [default: this folder if it has workshop files, else the user''s own]')
            [CompletionResult]::new('--plain', '--plain', [CompletionResultType]::ParameterName, 'Words instead of signs, no box art: to be read aloud')
            [CompletionResult]::new('-h', '-h', [CompletionResultType]::ParameterName, 'Print help')
            [CompletionResult]::new('--help', '--help', [CompletionResultType]::ParameterName, 'Print help')
            break
        }
        'shirr;page' {
            [CompletionResult]::new('--workshop', '--workshop', [CompletionResultType]::ParameterName, 'The workshop''s folder [default: this folder if it has workshop files, else the user''s own]')
            [CompletionResult]::new('--plain', '--plain', [CompletionResultType]::ParameterName, 'Words instead of signs, no box art: to be read aloud')
            [CompletionResult]::new('-h', '-h', [CompletionResultType]::ParameterName, 'Print help')
            [CompletionResult]::new('--help', '--help', [CompletionResultType]::ParameterName, 'Print help')
            break
        }
        'shirr;run' {
            [CompletionResult]::new('--csv', '--csv', [CompletionResultType]::ParameterName, 'Leave the tables as CSV files in this folder')
            [CompletionResult]::new('--workshop', '--workshop', [CompletionResultType]::ParameterName, 'The workshop''s folder [default: this folder if it has workshop files, else the user''s own]')
            [CompletionResult]::new('--anyway', '--anyway', [CompletionResultType]::ParameterName, 'Run a recipe that its check found fault with')
            [CompletionResult]::new('--all', '--all', [CompletionResultType]::ParameterName, 'Show every table, step and caution, not the first screen alone')
            [CompletionResult]::new('--plain', '--plain', [CompletionResultType]::ParameterName, 'Words instead of signs, no box art: to be read aloud')
            [CompletionResult]::new('-h', '-h', [CompletionResultType]::ParameterName, 'Print help')
            [CompletionResult]::new('--help', '--help', [CompletionResultType]::ParameterName, 'Print help')
            break
        }
        'shirr;recipes' {
            [CompletionResult]::new('--workshop', '--workshop', [CompletionResultType]::ParameterName, 'The workshop''s folder [default: this folder if it has workshop files, else the user''s own]')
            [CompletionResult]::new('--plain', '--plain', [CompletionResultType]::ParameterName, 'Words instead of signs, no box art: to be read aloud')
            [CompletionResult]::new('-h', '-h', [CompletionResultType]::ParameterName, 'Print help')
            [CompletionResult]::new('--help', '--help', [CompletionResultType]::ParameterName, 'Print help')
            break
        }
        'shirr;describe' {
            [CompletionResult]::new('--workshop', '--workshop', [CompletionResultType]::ParameterName, 'The workshop''s folder [default: this folder if it has workshop files, else the user''s own]')
            [CompletionResult]::new('--plain', '--plain', [CompletionResultType]::ParameterName, 'Words instead of signs, no box art: to be read aloud')
            [CompletionResult]::new('-h', '-h', [CompletionResultType]::ParameterName, 'Print help')
            [CompletionResult]::new('--help', '--help', [CompletionResultType]::ParameterName, 'Print help')
            break
        }
        'shirr;check' {
            [CompletionResult]::new('--workshop', '--workshop', [CompletionResultType]::ParameterName, 'The workshop''s folder [default: this folder if it has workshop files, else the user''s own]')
            [CompletionResult]::new('--watch', '--watch', [CompletionResultType]::ParameterName, 'Check again each time a file of theirs is saved, until Ctrl-C')
            [CompletionResult]::new('--plain', '--plain', [CompletionResultType]::ParameterName, 'Words instead of signs, no box art: to be read aloud')
            [CompletionResult]::new('-h', '-h', [CompletionResultType]::ParameterName, 'Print help')
            [CompletionResult]::new('--help', '--help', [CompletionResultType]::ParameterName, 'Print help')
            break
        }
        'shirr;sheet' {
            [CompletionResult]::new('--workshop', '--workshop', [CompletionResultType]::ParameterName, 'The workshop''s folder [default: this folder if it has workshop files, else the user''s own]')
            [CompletionResult]::new('--anyway', '--anyway', [CompletionResultType]::ParameterName, 'Run a recipe that its check found fault with')
            [CompletionResult]::new('--plain', '--plain', [CompletionResultType]::ParameterName, 'Words instead of signs, no box art: to be read aloud')
            [CompletionResult]::new('-h', '-h', [CompletionResultType]::ParameterName, 'Print help')
            [CompletionResult]::new('--help', '--help', [CompletionResultType]::ParameterName, 'Print help')
            break
        }
        'shirr;cut' {
            [CompletionResult]::new('--from', '--from', [CompletionResultType]::ParameterName, 'The lengths, as CSV: stock, count, along, price, and for cloth across, nap')
            [CompletionResult]::new('--csv', '--csv', [CompletionResultType]::ParameterName, 'Leave the tables as CSV files, and a picture of the lay, in this folder')
            [CompletionResult]::new('--loss', '--loss', [CompletionResultType]::ParameterName, 'What is lost at each cut, such as ''1/8 in''')
            [CompletionResult]::new('--squaring', '--squaring', [CompletionResultType]::ParameterName, 'What squaring takes off each end of a length')
            [CompletionResult]::new('--keep', '--keep', [CompletionResultType]::ParameterName, 'Leftovers at least so long are kept [default: the workshop''s smallest remnant]')
            [CompletionResult]::new('--like', '--like', [CompletionResultType]::ParameterName, 'Cuts of this plan.csv, written before, stay where they are')
            [CompletionResult]::new('--steps', '--steps', [CompletionResultType]::ParameterName, 'How hard to look: a million steps take about a second')
            [CompletionResult]::new('--seconds', '--seconds', [CompletionResultType]::ParameterName, 'Look for so many seconds instead, and take the best found by then')
            [CompletionResult]::new('--seed', '--seed', [CompletionResultType]::ParameterName, 'Begin the search in another place')
            [CompletionResult]::new('--workshop', '--workshop', [CompletionResultType]::ParameterName, 'The workshop''s folder [default: this folder if it has workshop files, else the user''s own]')
            [CompletionResult]::new('--straight', '--straight', [CompletionResultType]::ParameterName, 'Cut straight from edge to edge only, as cloth is torn')
            [CompletionResult]::new('--folded', '--folded', [CompletionResultType]::ParameterName, 'Cut on cloth folded lengthwise, selvedge on selvedge')
            [CompletionResult]::new('--plain', '--plain', [CompletionResultType]::ParameterName, 'Words instead of signs, no box art: to be read aloud')
            [CompletionResult]::new('-h', '-h', [CompletionResultType]::ParameterName, 'Print help')
            [CompletionResult]::new('--help', '--help', [CompletionResultType]::ParameterName, 'Print help')
            break
        }
        'shirr;help' {
            [CompletionResult]::new('--workshop', '--workshop', [CompletionResultType]::ParameterName, 'The workshop''s folder [default: this folder if it has workshop files, else the user''s own]')
            [CompletionResult]::new('--plain', '--plain', [CompletionResultType]::ParameterName, 'Words instead of signs, no box art: to be read aloud')
            [CompletionResult]::new('-h', '-h', [CompletionResultType]::ParameterName, 'Print help')
            [CompletionResult]::new('--help', '--help', [CompletionResultType]::ParameterName, 'Print help')
            break
        }
    })

    $completions.Where{ $_.CompletionText -like "$wordToComplete*" } |
        Sort-Object -Property ListItemText
}
