/** What was typed, made plain: see `cleanEntry`. */
export interface CleanEntry {
	/** As typed, without control characters and outer blanks: what is stored and quoted. */
	readonly entered: string;
	/** To be read: minus, sharp, flat and wide digits in their ASCII form, single blanks, no `!` at the end. */
	readonly text: string;
	/** True if an exclamation mark stood at the end: "I meant it". */
	readonly meant: boolean;
}

/** Keyboards, phones and pasted text have many characters for one meaning. */
export function cleanEntry(typed: string): CleanEntry {
	const entered = typed
		.replace(/\s+/g, ' ')
		// Escape sequences, direction marks and broken surrogates would spoil a screen and a store.
		.replace(/\p{C}/gu, '')
		.trim();
	const plain = entered
		.normalize('NFKC')
		.replace(/[‐‑‒–—−﹣]/g, '-')
		.replace(/♯/g, '#')
		.replace(/♭/g, 'b')
		.replace(/[“”″]/g, '"')
		.replace(/[’′]/g, "'")
		.replace(/\s+/g, ' ')
		.trim();
	const meant = /!$/.test(plain);
	return {entered, text: meant ? plain.replace(/[\s!]+$/, '') : plain, meant};
}

/** `25½` and `25¼` as `25 1/2` and `25 1/4`: for lengths and turns, before `cleanEntry`. */
export function expandFractions(typed: string): string {
	return typed.replace(/[¼½¾⅛⅜⅝⅞]/g, sign => ` ${sign.normalize('NFKC').replace('⁄', '/')}`);
}

/**
 * The same with letters that stand where digits may be meant (`1O`, `l2`)
 * replaced, or `undefined` if there are none.
 */
export function digitsForLetters(text: string): string | undefined {
	const repaired = text.replace(/(?<![a-z#])[\doli|.,]+(?=$|[^a-z#]|c|hz)/gi, run =>
		/\d/.test(run) || /^o+$/i.test(run) ? run.replace(/o/gi, '0').replace(/[li|]/gi, '1') : run,
	);
	return repaired === text ? undefined : repaired;
}

/** A decimal comma or point; digits only, so that Number() cannot fail or read an exponent. */
export const decimalPattern = String.raw`(?:\d+(?:[.,]\d*)?|[.,]\d+)`;

/** Value of a text that matches `[+-]?` and `decimalPattern`. */
export function decimal(text: string): number {
	return Number(text.replace(',', '.'));
}
