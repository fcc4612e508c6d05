//! Rewrites the decimal commas of a typed line to points, for a workshop that writes figures with a comma.
//!
//! A page keeps the line with points, so that it reads the same in every workshop. Never here: whether the workshop
//! writes commas.

/// Returns the line with a point for each comma between two digits: `waist = 56,5 cm`. A comma with a blank behind it
/// parts two figures: `[6, 5]`. Names in quotes and notes stay as they are.
pub(crate) fn with_points(line: &str) -> String {
    let mut rewritten = String::with_capacity(line.len());
    let mut rest = line;
    while let Some(at) = rest.find(['#', '\'', '"']) {
        let (before, behind) = rest.split_at(at);
        rewritten.push_str(&pointed(before));
        if behind.starts_with('#') {
            rewritten.push_str(behind);
            return rewritten;
        }
        // Only behind = it begins a text; elsewhere it is the mark of feet or inches.
        let mark = behind.chars().next().unwrap_or('\'');
        let text = behind.get(1..).and_then(|inside| Some((inside, inside.find(mark)?)));
        rewritten.push(mark);
        rest = behind.get(1..).unwrap_or_default();
        if let Some((inside, end)) = text.filter(|_| before.trim_end().ends_with('=')) {
            let (text, behind) = inside.split_at(end);
            let is_measured = text.starts_with("any ") || !text.starts_with(char::is_alphabetic);
            rewritten.push_str(&if is_measured { pointed(text) } else { text.to_owned() });
            rewritten.push(mark);
            rest = behind.get(1..).unwrap_or_default();
        }
    }
    rewritten.push_str(&pointed(rest));
    rewritten
}

fn pointed(text: &str) -> String {
    let is_digit = |c: Option<char>| c.is_some_and(|c| c.is_ascii_digit());
    let mut before = None;
    let mut chars = text.chars().peekable();
    let mut pointed = String::with_capacity(text.len());
    while let Some(c) = chars.next() {
        let is_decimal = c == ',' && is_digit(before) && is_digit(chars.peek().copied());
        pointed.push(if is_decimal { '.' } else { c });
        before = Some(c);
    }
    pointed
}

#[cfg(test)]
mod tests {
    use super::with_points;

    #[test]
    fn a_comma_between_digits_is_a_point_and_no_other_is() {
        for (typed, wanted) in [
            ("waist = 56,5 cm", "waist = 56.5 cm"),
            ("€4,50/m * 3,2 m", "€4.50/m * 3.2 m"),
            ("[6, 5]", "[6, 5]"),
            ("up(12,2)", "up(12.2)"),
            ("waist = 56,5 cm # was 55,5", "waist = 56.5 cm # was 55,5"),
            ("elastic='elastic 1,5 cm' waist=56,5", "elastic='elastic 1,5 cm' waist=56.5"),
            ("cloth='any 137,5 cm at €9,50/m'", "cloth='any 137.5 cm at €9.50/m'"),
            ("waist='56,5 cm'", "waist='56.5 cm'"),
            ("5' 3\" + 2,5 cm", "5' 3\" + 2.5 cm"),
            ("cloth='b # 1,5' waist=56,5", "cloth='b # 1,5' waist=56.5"),
            ("elastic = 'elastic 1,5 cm' + 2,5", "elastic = 'elastic 1,5 cm' + 2.5"),
            ("elastic='elastic 1,5", "elastic='elastic 1.5"),
            ("note='anything 1,5'", "note='anything 1,5'"),
            ("note=\"lace 1,5\" hips=\"98,5\"", "note=\"lace 1,5\" hips=\"98.5\""),
            ("f('lace 1,5')", "f('lace 1.5')"),
            ("1,2,3 ,5 5,", "1.2.3 ,5 5,"),
            ("a,5 + 5,a", "a,5 + 5,a"),
            ("# 1,5", "# 1,5"),
            ("", ""),
        ] {
            assert_eq!(with_points(typed), wanted);
        }
    }
}
