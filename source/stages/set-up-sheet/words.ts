/** Every sentence of the set-up sheet stage; those of the sheet itself stand with the sheet. */
export const words = {
	title: 'Set-up sheet',
	headline: 'The set-up is done. Keep the sheet, and hand it over with the guitar.',
	why: 'What came in, what was done, what it reads now, what to watch.',
	how: [
		'v shows all of it to be scrolled, w writes it as a page to print, as Markdown and as data, n adds a note to it.',
	],
	prompt: 'Enter to finish',
	enter: 'finish',
	view: 'read the sheet',
	save: 'write the sheet',
} as const;
