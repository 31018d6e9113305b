//! What things are called: salt, curing agents, and what is known to bring no
//! nitrite, in English, German, French, Italian and Spanish.
//!
//! The lists are what is written over the counter and on packets (common
//! practice, no source). None of them is complete, which is why a thing that
//! is on no list and in an amount that a curing agent could have is asked
//! about, never let pass.

/// Lower case, without accents, words parted by single spaces: `Sel nitrité`
/// is `sel nitrite`.
fn plain(name: &str) -> String {
    let mut text = String::with_capacity(name.len());
    for c in name.chars().flat_map(char::to_lowercase) {
        match c {
            'ä' => text.push_str("ae"),
            'ö' => text.push_str("oe"),
            'ü' => text.push_str("ue"),
            'ß' => text.push_str("ss"),
            'à' | 'á' | 'â' | 'ã' => text.push('a'),
            'ç' => text.push('c'),
            'è' | 'é' | 'ê' | 'ë' => text.push('e'),
            'ì' | 'í' | 'î' | 'ï' => text.push('i'),
            'ò' | 'ó' | 'ô' | 'õ' => text.push('o'),
            'ù' | 'ú' | 'û' => text.push('u'),
            'ñ' => text.push('n'),
            'œ' => text.push_str("oe"),
            '₂' => text.push('2'),
            '₃' => text.push('3'),
            c if c.is_alphanumeric() => text.push(c),
            '#' => text.push_str(" # "),
            _ => text.push(' '),
        }
    }
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// Whether a word stands in a text as a word of its own.
fn has_word(text: &str, word: &str) -> bool {
    text.split(' ').any(|there| there == word)
}

/// Whether several words stand in a text one after the other.
fn has_words(text: &str, words: &str) -> bool {
    format!(" {text} ").contains(&format!(" {words} "))
}

/// Common salt, whole names.
const SALT: [&str; 26] = [
    "salt",
    "sea salt",
    "table salt",
    "common salt",
    "kosher salt",
    "rock salt",
    "flaky salt",
    "fine salt",
    "coarse salt",
    "salz",
    "meersalz",
    "speisesalz",
    "steinsalz",
    "kochsalz",
    "sel",
    "sel fin",
    "gros sel",
    "sel de mer",
    "fleur de sel",
    "sale",
    "sale fino",
    "sale grosso",
    "sale marino",
    "sal",
    "sal marina",
    "sal gorda",
];

/// Whether it is what common salt is called.
pub(super) fn is_salt(name: &str) -> bool {
    SALT.contains(&plain(name).as_str())
}

/// Parts of words that only curing agents have.
const CURING_ANYWHERE: [&str; 23] = [
    "nitrit",
    "nitrat",
    "nitrificad",
    "curing",
    "saltpet",
    "salt peter",
    "salpeter",
    "salpetre",
    "salnitr",
    "salitre",
    "poekel",
    "pokelsalz",
    "peklos",
    "saletra",
    "umroete",
    "selchsalz",
    "surfleischsalz",
    "surgewuerz",
    "conciante",
    "kleurzout",
    "nano2",
    "nano3",
    "kno3",
];

/// Words of their own, or several in a row.
const CURING_WORDS: [&str; 42] = [
    "cure",
    "cures",
    "nps",
    "kno2",
    "e249",
    "e250",
    "e251",
    "e252",
    "e 249",
    "e 250",
    "e 251",
    "e 252",
    "pink salt",
    "pink cure",
    "tinted salt",
    "prague powder",
    "prague salt",
    "polvo de praga",
    "polvos de praga",
    "sal de praga",
    "sal praga",
    "sal de cura",
    "sal curante",
    "sales curantes",
    "sal para curar",
    "sal rosa",
    "sal nitro",
    "sal de nitro",
    "sel rose",
    "sel de salaison",
    "sel a salaison",
    "sel de praguer",
    "sel colorant",
    "sel de saumure",
    "sale rosa",
    "sale da concia",
    "sale per salumi",
    "concia",
    "rosa salz",
    "rotes salz",
    "celery powder",
    "celery juice powder",
];

/// Whether it is what curing agents are called.
pub(super) fn is_curing(name: &str) -> bool {
    let name = plain(name);
    CURING_ANYWHERE.iter().any(|part| name.contains(part))
        || CURING_WORDS.iter().any(|words| has_words(&name, words))
}

/// Words of things that bring no nitrite worth counting.
const HARMLESS: [&str; 178] = [
    // Water, salt and sweetness.
    "water",
    "wasser",
    "eau",
    "acqua",
    "agua",
    "ice",
    "eis",
    "sugar",
    "zucker",
    "sucre",
    "zucchero",
    "azucar",
    "honey",
    "honig",
    "miel",
    "miele",
    "molasses",
    "treacle",
    "syrup",
    "dextrose",
    "glucose",
    "maltose",
    "lactose",
    // Spice.
    "pepper",
    "peppercorn",
    "peppercorns",
    "pfeffer",
    "poivre",
    "pepe",
    "pimienta",
    "garlic",
    "knoblauch",
    "ail",
    "aglio",
    "ajo",
    "onion",
    "zwiebel",
    "oignon",
    "cipolla",
    "cebolla",
    "shallot",
    "bay",
    "lorbeer",
    "laurier",
    "alloro",
    "laurel",
    "thyme",
    "thymian",
    "thym",
    "timo",
    "tomillo",
    "rosemary",
    "rosmarin",
    "romarin",
    "rosmarino",
    "romero",
    "sage",
    "salbei",
    "sauge",
    "salvia",
    "juniper",
    "wacholder",
    "genievre",
    "ginepro",
    "enebro",
    "coriander",
    "koriander",
    "cumin",
    "kuemmel",
    "caraway",
    "fennel",
    "fenchel",
    "fenouil",
    "finocchio",
    "hinojo",
    "anise",
    "clove",
    "cloves",
    "nelke",
    "nelken",
    "girofle",
    "cinnamon",
    "zimt",
    "cannelle",
    "nutmeg",
    "muskat",
    "muscade",
    "mace",
    "allspice",
    "piment",
    "paprika",
    "pimenton",
    "chilli",
    "chili",
    "cayenne",
    "mustard",
    "senf",
    "moutarde",
    "senape",
    "mostaza",
    "ginger",
    "ingwer",
    "gingembre",
    "zenzero",
    "jengibre",
    "turmeric",
    "marjoram",
    "majoran",
    "oregano",
    "dill",
    "parsley",
    "petersilie",
    "persil",
    "cardamom",
    "saffron",
    "vanilla",
    "lemon",
    "zitrone",
    "citron",
    "limone",
    "orange",
    "lime",
    "zest",
    // Wet things.
    "vinegar",
    "essig",
    "vinaigre",
    "aceto",
    "vinagre",
    "wine",
    "wein",
    "vin",
    "vino",
    "beer",
    "bier",
    "cider",
    "stock",
    "brandy",
    "rum",
    "soy",
    "shoyu",
    "tamari",
    "oil",
    "oel",
    "huile",
    "olio",
    "aceite",
    "milk",
    "milch",
    "lait",
    "latte",
    "leche",
    "cream",
    "butter",
    "egg",
    "eggs",
    // Dry things.
    "flour",
    "mehl",
    "farine",
    "farina",
    "harina",
    "starch",
    "staerke",
    "yeast",
    "hefe",
    "gelatine",
    "gelatin",
    "agar",
    "nigari",
    "gypsum",
    "kombu",
    "miso",
    "koji",
    "ascorbate",
    "erythorbate",
    "ascorbic",
    "phosphate",
    "tea",
    "coffee",
];

/// Whether it is on the list of what brings no nitrite worth counting. A name
/// with one curing word in it is never on it.
#[must_use]
pub fn is_known_harmless(name: &str) -> bool {
    if is_curing(name) {
        return false;
    }
    if is_salt(name) {
        return true;
    }
    let name = plain(name);
    // Of several words the last says what it is in English, the first in the others; a blend may
    // hold anything.
    const BLEND: [&str; 16] = [
        "mix",
        "blend",
        "rub",
        "seasoning",
        "mischung",
        "gewuerz",
        "melange",
        "miscela",
        "mezcla",
        "salt",
        "salz",
        "sel",
        "sale",
        "sal",
        "powder",
        "pulver",
    ];
    !BLEND.iter().any(|word| has_word(&name, word))
        && HARMLESS.iter().any(|word| has_word(&name, word))
}

/// Whether a name was refused for a plain ingredient from the beginning: no
/// record can hold it unless somebody wrote it there by hand.
#[must_use]
pub fn was_always_refused(name: &str) -> bool {
    const FIRST: [&str; 7] = [
        "nitrite",
        "nitrate",
        "curing",
        "cure #",
        "pink salt",
        "saltpet",
        "salt peter",
    ];
    let name = name.to_lowercase();
    FIRST.iter().any(|word| name.contains(word))
}

#[cfg(test)]
mod tests {
    use super::*;

    // What is written on packets in five languages (common practice, no source).
    #[test]
    fn everyday_names_of_curing_agents_are_known() {
        for name in [
            "Curing salt",
            "Pink salt",
            "Cure #1",
            "cure no. 1",
            "Prague Powder",
            "Saltpetre",
            "sodium nitrite",
            "NaNO₂",
            "E250",
            "E 252",
            "bacon cure",
            "Pökelsalz",
            "Nitritpökelsalz",
            "NPS",
            "Salpeter",
            "Natriumnitrit",
            "Kalisalpeter",
            "Sel nitrité",
            "sel rose",
            "salpêtre",
            "sel de salaison",
            "Sale nitritato",
            "salnitro",
            "sale rosa",
            "nitrito di sodio",
            "Sal nitrificada",
            "sal de cura",
            "salitre",
            "nitrito sódico",
            "sal de Praga",
            "celery powder",
        ] {
            assert!(is_curing(name), "{name}");
            assert!(!is_known_harmless(name), "{name}");
        }
    }

    #[test]
    fn food_keeps_its_name() {
        for name in [
            "salt",
            "pink peppercorns",
            "cured egg yolk",
            "water",
            "pork",
            "Secure-cap lids",
            "celery",
            "rose water",
            "salmon",
            "salami",
            "obscure spice",
        ] {
            assert!(!is_curing(name), "{name}");
        }
    }

    #[test]
    fn only_what_is_on_the_list_is_harmless() {
        for name in [
            "Salt",
            "Meersalz",
            "sugar",
            "brown sugar",
            "black pepper",
            "Knoblauch",
            "eau",
        ] {
            assert!(is_known_harmless(name), "{name}");
        }
        for name in [
            "pork",
            "rub",
            "pepper mix",
            "garlic salt",
            "Würzmischung",
            "number one",
            "the white one",
            "tinted salt",
            "sugar cure",
        ] {
            assert!(!is_known_harmless(name), "{name}");
        }
    }
}
