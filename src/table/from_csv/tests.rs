//! Tests of reading a CSV text: columns, cells, and the wording of every refusal.

use super::*;
use crate::diagnostic::Diagnose;
use crate::quantity::{Length, Style};
use proptest::prelude::*;

fn table(text: &str) -> Table {
    read("orders.csv", text, Reading::default()).unwrap_or_else(|errors| panic!("{}", error_text(&errors)))
}

fn error_text(errors: &[TableFileError]) -> String {
    let texts = errors.iter().map(|error| match error.hint() {
        Some(hint) => format!("{error}\n  {hint}"),
        None => error.to_string(),
    });
    texts.collect::<Vec<_>>().join("\n")
}

#[track_caller]
fn refused(text: &str, expected: &str) {
    match read("orders.csv", text, Reading::default()) {
        Ok(table) => panic!("{table:?}"),
        Err(found) => assert_eq!(error_text(&found), expected),
    }
}

fn kinds(table: &Table) -> Vec<String> {
    table.columns().iter().map(|column| format!("{}: {}", column.heading_with_unit('$'), column.kind.noun())).collect()
}

#[track_caller]
fn column(fields: &[&str], kind: &str) {
    let text: String = fields.iter().map(|field| format!("x,\"{}\"\n", field.replace('"', "\"\""))).collect();
    let table = table(&format!("order,it\n{text}"));
    assert_eq!(kinds(&table)[1], kind, "{fields:?}");
}

#[test]
fn a_column_is_what_its_fields_are() {
    column(&["14 1/2 in", "", "35 cm"], "it (in): a length");
    column(&["2 yd 6 in", "1 yd"], "it (yd): a length");
    column(&["1 h 20 min", "12 min"], "it (h): a time");
    column(&["$4.50", "$3"], "it ($): an amount of money");
    column(&["$4.50/yd"], "it ($/yd): a price by the length");
    column(&["2.6 oz/yd^2"], "it (oz/yd^2): a cloth weight");
    column(&["8 %", "12.5 %"], "it (%): a plain number");
    column(&["12", "-3", "2 dozen"], "it: a count");
    column(&["12", "2.5", "3/8"], "it: a plain number");
    column(&["12", "2.0"], "it: a plain number");
    column(&["yes", "No", ""], "it: a yes or no");
    column(&["yes", "no", "perhaps"], "it: a text");
    column(&["", ""], "it: a text");
}

/// Fields of two tapes stay as written; a unit in the heading applies to all.
#[test]
fn fields_of_two_tapes_are_shown_as_they_were_written() {
    let as_written = |text: &str| match &table(text).columns()[0].kind {
        ColumnKind::Quantity(unit) => unit.is_as_written(),
        other => panic!("{other:?}"),
    };
    assert!(as_written("it\n45 in\n112 cm\n"));
    assert!(!as_written("it\n45 in\n2 yd\n\n"));
    assert!(!as_written("it (in)\n45\n112 cm\n"));
    assert!(!as_written("it\n2 min\n1 h\n"));
}

/// Names that begin like measures, marks, codes, days, and text that a spreadsheet would run.
#[test]
fn names_stay_names() {
    column(&["6 in tulle", "B4-2"], "it: a text");
    column(&["6 in tulle", "54 in satin", "10 in"], "it: a text");
    column(&["B4-2", "12"], "it: a text");
    column(&["007", "012"], "it: a text");
    column(&["2026-03-02", "2026-03-09"], "it: a text");
    column(&["=2+3", "+4", "@x"], "it: a text");
    column(&["'-3", "'-4"], "it: a text");
    assert_eq!(table("class (text)\n301\n504\n").cell(1, "class"), Ok(&Cell::from("301")));
    assert_eq!(table("note\n'-3\n'=1\n").cell(1, "note"), Ok(&Cell::from("-3")));
}

#[test]
fn a_slip_among_measures_is_told_and_never_a_name() {
    refused(
        "order,waist\n1,56 cm\n2,58 cmm\n3,about 60 cm\n4,\n5,62 cm\n6,64 cm\n",
        "orders.csv, line 3, column “waist”: “cmm” is not a unit\n  \
         did you mean “mm”? Or write (text) behind the heading if the column holds names\n\
         orders.csv, line 4, column “waist”: “about 60 cm” is not a figure, and most of the column are, such as 56 cm\n  \
         leave it blank where nothing is known; or write (text) behind the heading if the column holds names",
    );
    // One of two fields: it begins like a measure, so it is taken for one.
    let half = read("o", "waist\n56 cm\n58 cmm\n", Reading::default());
    assert_eq!(half.unwrap_err().len(), 1);
    let comma = read("o", "waist (cm)\n\"56,5\"\n", Reading::default()).unwrap_err();
    assert_eq!(
        error_text(&comma),
        "o, line 2, column “waist”: “56,5” has a comma, and this file writes a decimal point\n  \
         type 2.5, and no comma between thousands"
    );
}

#[test]
fn unlike_measures_are_not_put_into_one_column() {
    refused(
        "piece,along\nband,14 in\nruffle,12 min\nhem,3\n",
        "orders.csv, line 3, column “along”: “12 min” is a time, and “14 in” on line 2 is a length\n  \
         give a length there, or put it into a column of its own; or write (text) behind the heading if the column holds names\n\
         orders.csv, line 4, column “along”: “3” has no unit, and “14 in” on line 2 has one\n  \
         give it a unit, or put the unit into the heading for the whole column: along (in); or write (text) behind the heading if the column holds names",
    );
    refused(
        "piece,along (in)\nband,14\nruffle,12 min\n",
        "orders.csv, line 3, column “along”: “12 min” is a time, and “in” in the heading measures a length\n  \
         give a length there",
    );
}

#[test]
fn headings_carry_units_and_remarks() {
    let table = table("waist (over the vest),width (in),price ($/yd),cost ($),time (h)\n56 cm,14 1/2,4.50,12,1.5\n");
    let kinds = kinds(&table);
    assert_eq!(kinds[0], "waist (over the vest) (cm): a length");
    assert_eq!(
        kinds[1..4],
        ["width (in): a length", "price ($/yd): a price by the length", "cost ($): an amount of money"]
    );
    assert_eq!(table.cell(1, "width"), Ok(&Length::inches(14.5).into()).map(|cell: &Cell| cell));
    assert_eq!(table.cell(1, "waist_over_the_vest").map(Cell::is_blank), Ok(false));
    refused(
        "width (inn),width,,cost (£)\n1,2,3,4\n",
        "orders.csv, line 1, column “width (inn)”: “inn” in the heading is not a unit\n  \
         did you mean “in”? Leave the brackets out if it is no unit\n\
         orders.csv, line 1: column 3 has no heading\n  \
         name it in the first line, or take the column away\n\
         orders.csv, line 1, column “cost (£)”: this workshop counts its money in $, not in £\n  \
         type $4.50",
    );
    refused(
        "Due date,due_date\nx,y\n",
        "orders.csv, line 1, column “due_date”: the column is there twice\n  give each column a name of its own",
    );
}

#[test]
fn the_other_dialect_is_noticed_by_its_headings() {
    let semicolon = "\u{feff}piece;along (in);cost\r\n\"band; waist\";10,375;$4,50\r\n";
    let table = table(semicolon);
    assert_eq!(table.cell(1, "piece"), Ok(&Cell::from("band; waist")));
    assert_eq!(table.cell(1, "along"), Ok(&Cell::from(Length::inches(10.375))));
    assert_eq!(table.cell(1, "cost"), Ok(&Cell::from(Quantity::money(4.5))));
    let alone = read("o", "along\n\"2,5 in\"\n", Reading { decimal_comma: true, ..Reading::default() }).unwrap();
    assert_eq!(alone.cell(1, "along"), Ok(&Cell::from(Length::inches(2.5))));
    assert!(read("o", "sep=;\nalong;x\n2,5 in;3\n", Reading::default()).is_ok());
}

#[test]
fn what_a_spreadsheet_leaves_is_no_fault_and_a_row_out_of_step_is() {
    let table = table("piece,count,,\n\nband,2,,\n,,,\nhem,3\n");
    assert_eq!((table.len(), table.columns().len()), (2, 2));
    refused(
        "piece,count\nband,2\n\nruffle, upper,3\nhem\n",
        "orders.csv, line 4: the line has 3 fields but there are 2 headings\n  \
         put a field that has “,” in it between quotes: \"…, …\"\n\
         orders.csv, line 5: the line has 1 field but there are 2 headings\n  \
         leave a field blank where there is nothing to say",
    );
    refused("", "orders.csv: the file is empty\n  the first line names the columns: order,cloth,width (in)");
    refused(
        "piece,count\nband,2,x\n,\nhem,3,\n",
        "orders.csv, line 2: the line has 3 fields but there are 2 headings\n  \
         put a field that has “,” in it between quotes: \"…, …\"",
    );
}

#[test]
fn a_table_may_be_long_but_not_endless() {
    let text = |rows: usize| format!("piece,along\n{}", "band,14 in\n".repeat(rows));
    assert_eq!(table(&text(MOST_ROWS)).len(), MOST_ROWS);
    refused(
        &text(MOST_ROWS + 1),
        "orders.csv: the table has 5001 rows; at most 5000 can be read\n  split the file into parts of at most 5000 rows",
    );
    let wide = format!("{}\n", vec!["x"; 10_000].join(","));
    assert_eq!(read("o", &wide, Reading::default()).unwrap_err().len(), 1);
    let wrong = format!("along\n{}{}", "14 in\n".repeat(100), "x\n".repeat(90));
    assert_eq!(read("o", &wrong, Reading::default()).unwrap_err().len(), ERRORS_LISTED + 1);
}

#[test]
fn the_tape_beside_a_decimal_is_the_same_length() {
    let table = table("along (in),along (tape)\n10.375,10 3/8\n10.4,about 10 3/8\n,\n12,\n,0 3/8\n");
    assert_eq!(kinds(&table), ["along (in): a length"]);
    assert_eq!(table.cell(4, "along"), Ok(&Cell::from(Length::inches(0.375))));
    refused(
        "along (in),along (tape)\n10.5,10 3/8\n",
        "orders.csv, line 2, column “along”: “10.5” is not what stands beside it as the tape reads, “10 3/8”\n  \
         change both, or take the column as the tape reads away",
    );
}

#[test]
fn values_of_any_kind_have_their_units_beside_them() {
    let table = table("figure,value,unit\nlength,4.5,yd\ncost,12.00,$\nrolls,3,\nproved,yes,\nnote,L7,\nbound,,\n");
    assert_eq!(kinds(&table), ["figure: a text", "value: a value of any kind"]);
    let style = Style::default();
    let shown: Vec<String> = table
        .values("value")
        .unwrap()
        .map(|cell| match cell {
            Cell::Quantity(quantity) => style.show(*quantity),
            other => format!("{other:?}"),
        })
        .collect();
    assert_eq!(shown, ["4 1/2 yd", "$12.00", "Count(3)", "Flag(true)", "Text(\"L7\")", "Blank"]);
    let error = read("o", "value,unit\n3,yd\n4,yrd\nx,in\n5,cm\n6,cm\n", Reading::default()).unwrap_err();
    assert!(
        error_text(&error).contains("line 3, column “value”: “yrd” is not a unit\n  did you mean “yd”?"),
        "{}",
        error_text(&error)
    );
    assert!(error_text(&error).contains("line 4, column “value”: “x” is no number, and the unit “in” follows it"));
}

#[test]
fn nothing_of_a_text_acts_on_a_terminal() {
    let table = table("no\u{1b}[1mte\n\"red\u{1b}[31m\u{202e}\r\nband\"\n'\0=1\n");
    assert_eq!(table.columns()[0].heading, "no[1mte");
    assert_eq!(table.cell(1, "no_1mte"), Ok(&Cell::from("red[31m\nband")));
    assert_eq!(table.cell(2, "no_1mte"), Ok(&Cell::from("=1")));
}

proptest! {
    #[test]
    fn whatever_stands_in_a_file_is_read_or_refused(
        text in prop_oneof![
            any::<String>(),
            "[a-z0-9 ,;\"'=$%£/.()\n\r½±-]{0,120}",
            "(along( \\((in|tape|cm|text|\\$|%)\\))?[,;]unit[,;]x\n)(([0-9]{0,3}( 3/8)?( in| min|,5| %|)|yes|about 3|'=1)[,;]?){0,30}",
        ],
        comma in any::<bool>(),
    ) {
        match read("t.csv", &text, Reading { decimal_comma: comma, ..Reading::default() }) {
            Ok(table) => {
                for cell in table.rows().iter().flatten() {
                    if let Cell::Text(text) = cell {
                        prop_assert!(!text.chars().any(|c| c.is_control() && !matches!(c, '\n' | '\t')));
                    }
                }
            }
            Err(errors) => prop_assert!(!errors.is_empty() && !error_text(&errors).is_empty()),
        }
    }
}
