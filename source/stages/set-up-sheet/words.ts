/** Every sentence of the set-up sheet stage; those of the sheet itself stand with the sheet. */
export const words = {
	title: 'Set-up sheet',
	headline: 'The set-up is done. Keep the sheet, and hand it over with the guitar.',
	why: 'What came in, what was done, what it reads now, what to watch.',
	how: [
		'v saves it as Markdown. n writes a note that goes on it.',
		'Up and down scroll when it is longer than the screen.',
	],
	prompt: 'Enter to finish',
	enter: 'finish',
	save: 'save the sheet',
	more: (lines: number) => `${lines} more lines below`,
} as const;
