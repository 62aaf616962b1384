// What is spoken, set beside what is shown, so that nothing stands twice on
// the sheet: say also holds cautions, the question and its answers.

const plain = (text) => text.toLowerCase().replace(/[^\p{L}\p{N}]+/gu, ' ').trim();

/** Sentences of a text. A number's point does not end one. */
export function sentences(text) {
  return text.split(/(?<=[.?!])\s+(?=[\p{Lu}\p{N}'“])/u).filter(Boolean);
}

/** Reports whether all of a text stands in another, whatever the punctuation. */
export function holds(whole, part) {
  return ` ${plain(whole)} `.includes(` ${plain(part)} `);
}

// "Under the wall, through a join or over the top?"
function listsAnswers(sentence, options) {
  return options.length > 0 && options.every((option) => holds(sentence, option.label));
}

/** What say holds beyond the texts given and the answers listed in it. */
export function unsaid(say, texts, options = []) {
  return sentences(say)
    .filter((sentence) => !texts.some((text) => text && holds(text, sentence)) && !listsAnswers(sentence, options))
    .join(' ');
}
