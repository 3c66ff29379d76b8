"""The sentence of every field reads on once the marks round what is typed are gone, as the form shows it."""

import re

from hushwright.document.reference import rendered


def test_no_sentence_of_a_field_loses_a_word_without_its_marks() -> None:
    schema = next(text for name, text in rendered().items() if name.endswith(".json"))
    sentences = re.findall(r"\"description\": \"(.*?)\"", schema)
    assert len(sentences) > 300
    broken = [one for one in sentences if re.search(r" ,|, ,|,,|\(\)| {2}", one.replace("`", ""))]
    assert broken == []
