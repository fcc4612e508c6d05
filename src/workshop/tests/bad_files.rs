//! Bad files, and the exact words of their errors.

use super::*;

/// Reads one file as a whole workshop.
#[track_caller]
fn check(file: &str, text: &str, wanted: &str) {
    check_all(&[(file, text)], wanted);
}

#[track_caller]
fn check_all(files: &[(&str, &str)], wanted: &str) {
    let errors = Workshop::read(files).err().unwrap_or_default();
    assert_eq!(shown(&errors), wanted.trim());
}

#[test]
fn all_faults_of_a_file_at_once() {
    check(
        "materials.csv",
        "material,kind,usable width,put-up,price,price for,sold by,repeat,half drop,weight,shrink along\n\
         tulle,rol,6,25 yd,$6.50,put-up,put-up,,,,\n\
         Tulle,roll,6 min,25 yd,6.50,,putup,,,,\n\
         face,cloth,-54 in,,$5/yd,m,,,yes,3 oz,3\n\
         lawn,cloth,,,NaN,yd,,,,,100 %\n\
         net,cloth,54 in,,,yd\n\
         cone,thread,,,\"1,250.00\",put-up,,,,,\n\
         hook,notion,2 in ± 1/8 in,,$1,each,yd,,perhaps,,",
        "
materials.csv, line 2, column “kind”: “rol” is not one of cloth, roll, notion, thread
  -> did you mean “roll”?
materials.csv, line 2, column “usable width”: “6” has no unit, and the heading has none either
  -> type 6 in, or put the unit into the heading: “usable width (in)”
materials.csv, line 3, column “material”: “Tulle” stands in line 2 already
  -> give each its own name, or drop one line
materials.csv, line 3, column “usable width”: “6 min” is a time; a length is needed
  -> type it like 6 in
materials.csv, line 3, column “price”: “6.50” has no unit, and the heading has none either
  -> type $6.50, or put the unit into the heading: “price ($)”
materials.csv, line 3, column “price for”: nothing stands here, but there is a price
  -> type what the price buys: yd, m, each or put-up
materials.csv, line 3, column “sold by”: “putup” is not one of each, put-up, a length such as yd, 1/8 yd or m
  -> did you mean “put-up”?
materials.csv, line 4, column “usable width”: “-54 in” is not more than zero
  -> type a figure above zero
materials.csv, line 4, column “price for”: “m” cannot stand here, for the price names its own length
  -> clear the field
materials.csv, line 4, column “repeat”: nothing stands here, but the pattern has a half drop
  -> type a figure such as 64 cm
materials.csv, line 4, column “weight”: “3 oz” is a weight; a cloth weight is needed
  -> type it like 90 g/m^2
materials.csv, line 4, column “shrink along”: “3” has no unit, and the heading has none either
  -> type 3 %, or put the unit into the heading: “shrink along (%)”
materials.csv, line 5, column “usable width”: nothing stands here, but a cloth is cut across its width
  -> type a figure such as 54 in
materials.csv, line 5, column “price”: “NaN” is not a number with a unit
  -> type it like $4.50
materials.csv, line 5, column “shrink along”: “100 %” is too much; it must be less than 100 %
  -> type a figure that is less than 100 %
materials.csv, line 6: the line has 6 fields but there are 11 headings
  -> a blank field needs its sign too: roll,,25 yd
materials.csv, line 7, column “put-up”: nothing stands here, but the price is for a put-up
  -> type a figure such as 25 yd
materials.csv, line 7, column “price”: “1,250.00” has a comma, and this file writes a decimal point
  -> type 2.5 for two and a half, and no mark between thousands
materials.csv, line 8, column “usable width”: “2 in ± 1/8 in” is a spread; one figure is needed
  -> type the middle alone
materials.csv, line 8, column “sold by”: “yd” cannot stand here, for the price is for each
  -> clear the field
materials.csv, line 8, column “half drop”: “perhaps” is not one of yes, no, how much later the pattern starts on the next width, such as 21 cm
  -> type yes, no or how much later the pattern starts on the next width, such as 21 cm",
    );
}

#[test]
fn washing() {
    check(
        "materials.csv",
        "material,kind,usable width,shrink along,washing\n\
         lawn,cloth,44 in,4 %,Washed-First\n\
         voile,cloth,44 in,4 %,wash first\n\
         net,cloth,44 in,,boiled",
        "
materials.csv, line 3, column “washing”: “wash first” is not one of washed first, cut longer, as it comes
  -> did you mean “washed first”?
materials.csv, line 4, column “washing”: “boiled” is not one of washed first, cut longer, as it comes
  -> type washed first, cut longer or as it comes",
    );
    check_all(
        &[TULLE, ("stock.csv", "stock,material,along,washed\nB1,tulle,4 yd,half")],
        "
stock.csv, line 2, column “washed”: “half” is not one of yes, no
  -> type yes or no",
    );
}

#[test]
fn headings() {
    check(
        "stock.csv",
        "",
        "stock.csv: the file is empty\n  -> its first line must be headings: stock, material, along",
    );
    check("sizes.csv", "\u{feff}\r\n \r\n", "sizes.csv: the file is empty\n  -> its first line must be headings: size");
    check(
        "stock.csv",
        "stock,materal,along (inn),across (min),colour,lot,LOT,count (in)\nB1,tulle,4,4,ivory,,,1",
        "
stock.csv, line 1: “materal” is not a column of this file
  -> did you mean “material”?
stock.csv, line 1, column “along”: “inn” in the heading is not a unit
  -> did you mean “in”?
stock.csv, line 1, column “across”: “min” in the heading measures a time; a length is needed
  -> type the heading like “across (in)”
stock.csv, line 1: “colour” is not a column of this file
  -> the columns are stock, material, lot, count, along, across, washed, price, place, held for
stock.csv, line 1, column “lot”: the column is there twice
  -> keep one of the two columns
stock.csv, line 1, column “count”: “count (in)” is not a column of this file
  -> did you mean “count”?",
    );
    check(
        "materials.csv",
        "name of it\nivory tulle",
        "
materials.csv, line 1: “name of it” is not a column of this file
  -> the columns are material, kind, usable width, put-up, price, price for, sold by, repeat, half drop, nap, shrink along, shrink across, washing, weight, fibre, repeat across
materials.csv, line 1, column “material”: the column is missing
  -> add “material” to the line of headings
materials.csv, line 1, column “kind”: the column is missing
  -> add “kind” to the line of headings",
    );
    check(
        "rates.csv",
        "sep=|\noperation|per",
        "rates.csv, line 1: “|” names no sign that can stand between fields\n  -> type sep=, or sep=; or leave the line out",
    );
}

#[test]
fn rows_that_do_not_fit_their_headings() {
    check(
        "sizes.csv",
        "size,waist,\nWren,21 in,\nPip,14 in,thin,small\n\nJuno,\"24 in\nAlder,28 in,tall,\n,20 in,\nOdd\u{7},20 in,\nRue,20 in,x",
        "
sizes.csv, line 3: the line has 4 fields but there are 3 headings
  -> a text with a comma in it needs quotation marks: \"satin, ivory\"
sizes.csv, line 5: a field goes on over the end of the line
  -> close the quotation mark, or write the field in one line",
    );
    check(
        "sizes.csv",
        "size;waist;\nRue;20 cm;x\n;20 cm;\nOdd\u{7};20,5 cm;\nPip;20.5 cm;",
        "
sizes.csv, line 2: “x” stands under no heading
  -> give the column a heading, or clear the field
sizes.csv, line 3, column “size”: nothing stands here
  -> type a name such as Wren
sizes.csv, line 4, column “size”: a sign stands here that cannot be seen
  -> clear the field and type it again
sizes.csv, line 5, column “waist”: “20.5 cm” has a point, and this file writes a decimal comma
  -> type 2,5 for two and a half, and no mark between thousands",
    );
}

#[test]
fn what_spreadsheets_add_is_taken_off() {
    let plain = read(&[("sizes.csv", "size,waist (cm),waist to hem\nWren,53.5,30 cm\n")]);
    let spoiled = [
        "\u{feff}size,waist (cm),waist to hem\r\nWren,53.5,30 cm\r\n",
        "sep=;\r\nSize ; WAIST (cm) ;waist to hem\r\n\r\n;;\r\n Wren; 53,5 ;30 cm;;\r\n;;\r\n",
        "\u{feff}\"sep=,\"\n\"SIZE\",Waist (cm),waist to hem,,\n\n\n'Wren,53½,\"30 cm\",,",
        "size\t,waist  (cm),waist to hem\rWren,53 1/2 cm,30\u{a0}cm\r",
    ];
    for (text, number) in spoiled.iter().zip(1..) {
        let mut read = read(&[("Sizes.CSV", text)]);
        for size in &mut read.sizes.list {
            size.name = size.name.trim_start_matches('\'').to_owned();
        }
        let lower =
            |sizes: &Sizes| sizes.list.iter().flat_map(|size| size.measures.values().copied()).collect::<Vec<_>>();
        assert_eq!(lower(&read.sizes), lower(&plain.sizes), "text {number}");
        assert_eq!(read.sizes.list.first().map(|size| size.name.as_str()), Some("Wren"), "text {number}");
    }
}

#[test]
fn a_unit_in_the_heading_is_the_unit_of_every_field_without_one() {
    let own = read(&[(
        "materials.csv",
        "material,kind,usable width,put-up,price,shrink along,weight\n\
         tulle,roll,6 in,25 yd,$4.50/yd,0.3 %,0.8 oz/yd^2\nnet,roll,14 1/2 cm,2 yd 6 in,$4.50/yd,3 %,90 g/m^2",
    )]);
    let heading = read(&[(
        "materials.csv",
        "material,kind,usable width (in),put-up (yd),Price ($/yd),shrink along (%),weight (oz/yd^2)\n\
         tulle,roll,6,25,4.50,.3,0.8\nnet,roll,14½ cm,2 yd 6 in,4.5,3,90 g/m^2",
    )]);
    assert_eq!(heading, own);
    let tulle = own.materials.find("tulle").unwrap();
    assert_eq!((tulle.price, tulle.price_for), (Some(dollars(4.5)), PriceFor::Length(Length::yards(1.0))));
    assert_eq!(tulle.sold_by, SoldBy::Step(Length::yards(1.0)));
}

#[test]
fn lines_are_counted_as_an_editor_counts_them() {
    for (text, line) in [
        ("size,waist\nWren,x", 2),
        ("size,waist\r\nWren,x\r\n", 2),
        ("\n\nsize,waist\n\n\nWren,x\n\n", 6),
        ("sep=,\r\n\r\nsize,waist\r\n\r\nWren,x", 5),
        ("size,waist\r,\rWren,x\r", 3),
    ] {
        let errors = Workshop::read(&[("sizes.csv", text)]).unwrap_err();
        assert_eq!(errors.iter().map(|error| error.line).collect::<Vec<_>>(), [Some(line)], "{text:?}");
    }
}

#[test]
fn the_delimiter_is_the_one_that_makes_sense_of_the_headings() {
    let semicolons = read(&[("stock.csv", "stock;material;along;price\nB1;tulle;2,5 m;€3,20"), EUROS, TULLE]);
    let piece = semicolons.stock.list.first().unwrap();
    assert_eq!((piece.along, piece.price), (Some(Length::centimetres(250.0)), Some(dollars(3.2))));
    let commas = read(&[("stock.csv", "stock,material,along,price\nB1,tulle,2.5 m,€3.20"), EUROS, TULLE]);
    assert_eq!(commas.stock, semicolons.stock);
    let odd = read(&[("sizes.csv", "size;waist, over a vest (cm)\nWren;53,5")]);
    assert_eq!(odd.sizes.measures, ["waist, over a vest"]);
}

const EUROS: (&str, &str) = ("settings.csv", "setting,value\nprice ending,€0.95\ncurrency,€\n");
const TULLE: (&str, &str) = ("materials.csv", "material,kind,usable width\ntulle,roll,15 cm\n");

#[test]
fn stock() {
    check_all(
        &[
            TULLE,
            (
                "stock.csv",
                "stock,material,count,along,across,price\n\
                 B1,tule,1,25 yd,,\n\
                 b1,tulle,1.5,25 yd,0 in,\n\
                 B2,tulle,-1,,,£3\n\
                 ,tulle,1 yd,9 yd,,-$1\n\
                 B3,felt,1,25 yard long,,1 in",
            ),
        ],
        "
stock.csv, line 2, column “material”: there is no material “tule” in materials.csv
  -> did you mean “tulle”?
stock.csv, line 3, column “stock”: “b1” stands in line 2 already
  -> give each its own name, or drop one line
stock.csv, line 3, column “count”: “1.5” is not a whole number
  -> type a whole number such as 1, 2 or 10
stock.csv, line 3, column “across”: “0 in” is not more than zero
  -> type a figure above zero
stock.csv, line 4, column “count”: “-1” is less than zero
  -> type zero or more
stock.csv, line 4, column “along”: nothing stands here, but “tulle” is measured by the length
  -> type a figure such as 6 in
stock.csv, line 4, column “price”: this workshop counts its money in $, not in £
  -> type $4.50
stock.csv, line 5, column “stock”: nothing stands here
  -> type a mark such as B4-2
stock.csv, line 5, column “count”: “1 yd” is a length; a plain number is needed
  -> type it like 1 or 12
stock.csv, line 5, column “price”: “-$1” is less than zero
  -> type zero or more
stock.csv, line 6, column “material”: there is no material “felt” in materials.csv
  -> add it to materials.csv, or name one that is there
stock.csv, line 6, column “along”: “long” cannot follow here
  -> type it like 6 in
stock.csv, line 6, column “price”: “1 in” is a length; an amount of money is needed
  -> type it like $4.50",
    );
    // A material whose own row has an error is not reported as missing as well.
    check_all(
        &[("stock.csv", "stock,material,along\nB1,tulle,25 yd"), ("materials.csv", "material,kind\ntulle,roll")],
        "
materials.csv, line 2, column “usable width”: nothing stands here, but a roll is cut across its width
  -> type a figure such as 54 in",
    );
}

#[test]
fn trials() {
    check_all(
        &[
            TULLE,
            (
                "trials.csv",
                "trial,machine,setting,stitch,material,lot,pass,piece,overlap,pieces,flat,gathered\n\
                 a,one,,3 mm,tulle,L7,1,6 in,1/2 in,10,60 in,10 in\n\
                 a,two,,2.5 mm,tule,L8,1,6 in,1/2 in,10,,10 in\n\
                 b,,,,tulle,,2,,,,10 in,2 in\n\
                 c,,,,tulle,,,6 in,,,,\n\
                 d,,,,tulle,,0,1/2 in,1/2 in,3,,2 in\n\
                 e,,,,tulle,,,,,,10 in,11 in",
            ),
        ],
        "
trials.csv, line 2, column “flat”: “60 in” does not agree with the pieces: 10 pieces of 6 in less 9 overlaps of 1/2 in lie 55 1/2 in flat
  -> leave the flat length blank, or correct piece, overlap or pieces
trials.csv, line 3, column “machine”: “two” stands here, but “one” in line 2 of the same trial
  -> correct one of them, or give the row a trial name of its own
trials.csv, line 3, column “stitch”: “2.5 mm” stands here, but “3 mm” in line 2 of the same trial
  -> correct one of them, or give the row a trial name of its own
trials.csv, line 3, column “material”: there is no material “tule” in materials.csv
  -> did you mean “tulle”?
trials.csv, line 3, column “lot”: “L8” stands here, but “L7” in line 2 of the same trial
  -> correct one of them, or give the row a trial name of its own
trials.csv, line 5, column “gathered”: nothing stands here
  -> type a figure such as 6 in
trials.csv, line 6, column “pass”: “0” is not more than zero
  -> type a figure above zero
trials.csv, line 6, column “overlap”: “1/2 in” is too much; it must be less than the piece
  -> type a figure that is less than the piece
trials.csv, line 7, column “gathered”: “11 in” is too much; it must be no longer than the strip was flat
  -> type a figure that is no longer than the strip was flat",
    );
    check_all(
        &[TULLE, ("trials.csv", "trial,material,pass,flat,gathered\nb,tulle,2,10 in,2 in\nc,tulle,,,2 in")],
        "
trials.csv, line 3, column “flat”: nothing stands here, but piece and pieces do not tell it
  -> type a figure such as 6 in",
    );
    check_all(
        &[TULLE, ("trials.csv", "trial,material,pass,flat,gathered\nb,tulle,2,10 in,2 in")],
        "
trials.csv, line 2, column “pass”: the trial “b” has a later pass but no pass 1
  -> number the passes 1, 2 and so on",
    );
}

#[test]
fn rates() {
    check(
        "rates.csv",
        "operation,per,minutes,set-up (min),value\n\
         sew a seam,yd,1.5,2,\n\
         sew a band,pieces,,,\n\
         sew a hem,,2 in,-3,\n\
         wages,,,,$20/h\n\
         wage,each,,,$20\n\
         overhead,,,,15\n\
         fee,,,,100 %\n\
         Mark up,,,,\n\
         minimum,,,,18",
        "
rates.csv, line 3, column “per”: “pieces” is not one of piece, each, a length such as yd or m
  -> did you mean “piece”?
rates.csv, line 3, column “minutes”: nothing stands here
  -> type a figure such as 12 min
rates.csv, line 4, column “per”: nothing stands here
  -> type piece, each, or a length such as yd
rates.csv, line 4, column “minutes”: “2 in” is a length; a time is needed
  -> type it like 12 min
rates.csv, line 4, column “set-up”: “-3” is less than zero
  -> type zero or more
rates.csv, line 5, column “value”: “$20/h” cannot stand here, for only rates have a value: did you mean “wage”?
  -> clear the field
rates.csv, line 6, column “per”: “each” cannot stand here, for “wage” is no operation; its figure stands in “value”
  -> clear the field
rates.csv, line 6, column “value”: “$20” is an amount of money; a wage is needed
  -> type it like $20/h
rates.csv, line 7, column “value”: “15” has no unit
  -> type $15/h
rates.csv, line 8, column “value”: “100 %” is too much; it must be less than 100 %
  -> type a figure that is less than 100 %
rates.csv, line 9, column “value”: nothing stands here
  -> type a figure such as 3 %
rates.csv, line 10, column “value”: “18” has no unit
  -> type $18",
    );
}

#[test]
fn settings() {
    check(
        "settings.csv",
        "setting,value\n\
         tape,inches\n\
         tape step,1/10 in\n\
         currency,yen\n\
         dialect,commas\n\
         price ending,$1.95\n\
         deposit,120 %\n\
         smallest remnant,6\n\
         curency,$\n\
         colour,blue\n\
         tape,metric",
        "
settings.csv, line 2, column “value”: “inches” is not one of inch, metric
  -> did you mean “inch”?
settings.csv, line 3, column “value”: “1/10 in” is not one of 1/8 in, 1/4 in, 1/16 in, 1/32 in
  -> type 1/8 in, 1/4 in, 1/16 in or 1/32 in
settings.csv, line 4, column “value”: “yen” is not one of $, £, €
  -> type $, £ or €
settings.csv, line 5, column “value”: “commas” is not one of comma and point, semicolon and decimal comma
  -> type comma and point or semicolon and decimal comma
settings.csv, line 6, column “value”: “$1.95” is too much; it must be less than one whole
  -> type a figure that is less than one whole
settings.csv, line 7, column “value”: “120 %” is too much; it must be at most 100 %
  -> type a figure that is at most 100 %
settings.csv, line 8, column “value”: “6” has no unit
  -> type 6 in
settings.csv, line 9, column “setting”: “curency” is not one of tape, tape step, currency, dialect, decimal mark, price ending, deposit, smallest remnant, market
  -> did you mean “currency”?
settings.csv, line 10, column “setting”: “colour” is not one of tape, tape step, currency, dialect, decimal mark, price ending, deposit, smallest remnant, market
  -> type tape, tape step, currency, dialect, decimal mark, price ending, deposit, smallest remnant or market
settings.csv, line 11, column “setting”: “tape” stands in line 2 already
  -> give each its own name, or drop one line",
    );
}

#[test]
fn faults_of_all_files_together() {
    check_all(
        &[
            ("home/sizes.csv", "size,waist\nWren,21"),
            ("orders.csv", "whatever"),
            ("settings.csv", "setting,value\ntape,cubit"),
            ("SIZES.csv", "size,waist\nWren,21 in"),
        ],
        "
settings.csv, line 2, column “value”: “cubit” is not one of inch, metric
  -> type inch or metric
SIZES.csv: the file is given twice
  -> keep one of them
home/sizes.csv, line 2, column “waist”: “21” has no unit, and the heading has none either
  -> type 21 in, or put the unit into the heading: “waist (in)”",
    );
    assert_eq!(Workshop::read(&[]), Ok(Workshop::default()));
}
