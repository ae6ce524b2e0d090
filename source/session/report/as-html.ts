import {pageStyle} from './html-style.ts';
import {intonationPicture, openPicture} from './pictures/cents-picture.ts';
import {saddlePicture} from './pictures/saddle-picture.ts';
import {escapedMarkup as escaped, picture, dot} from './pictures/svg.ts';
import {tensionPicture} from './pictures/tension-picture.ts';
import {type Section, sectionsOf} from './sections.ts';
import type {SetUpSheet} from './set-up-sheet.ts';
import {words} from './words.ts';

/**
 * The sheet as one page that needs nothing else: no script, no file, no
 * network. Made to be printed or sent; ends with a line feed.
 */
export function sheetHtml(sheet: SetUpSheet): string {
	const {sections} = words;
	const all = sectionsOf(sheet);
	const named = (title: string) => all.find(section => section.title === title);
	const parts = [
		`<div class="two">${[sections.instrument, sections.plate].map(title => sectionHtml(named(title))).join('')}</div>`,
		picturesHtml(sheet),
		sectionHtml(named(sections.strings), 'wide'),
		...[sections.work, sections.proof, sections.watch, sections.notes].map(title => sectionHtml(named(title))),
		sectionHtml(named(sections.cautions), 'cautions'),
	];
	return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${escaped(words.title(sheet.name))}</title>
<style>${pageStyle}</style>
</head>
<body>
<header><h1>${escaped(sheet.name)}</h1><p>${escaped(words.subtitle(new Date(sheet.to).toISOString().slice(0, 10)))}</p></header>
${parts.filter(Boolean).join('\n')}
</body>
</html>
`;
}

function sectionHtml(section: Section | undefined, as = ''): string {
	if (!section) return '';
	const {title, pairs = [], table, lines = []} = section;
	// Sentences that explain a table stand small below it; others are the section itself.
	const said = table
		? lines.map(text => `<p class="note">${escaped(text)}</p>`).join('')
		: lines.length > 1
			? `<ul>${lines.map(text => `<li>${escaped(text)}</li>`).join('')}</ul>`
			: lines.map(text => `<p>${escaped(text)}</p>`).join('');
	return [
		`<section${as && ` class="${as}"`}><h2>${escaped(title)}</h2>`,
		pairs.length > 0
			? `<dl>${pairs.map(([name, value]) => `<dt>${escaped(name)}</dt><dd>${escaped(value)}</dd>`).join('')}</dl>`
			: '',
		table ? tableHtml(table) : '',
		said,
		'</section>',
	].join('');
}

function tableHtml({heads, rows}: NonNullable<Section['table']>): string {
	const cells = (row: readonly string[], tag: 'th' | 'td') =>
		`<tr>${row.map(cell => `<${tag}>${escaped(cell)}</${tag}>`).join('')}</tr>`;
	return `<table><thead>${cells(heads, 'th')}</thead><tbody>${rows.map(row => cells(row, 'td')).join('')}</tbody></table>`;
}

function picturesHtml(sheet: SetUpSheet): string {
	const {pictures} = words;
	const figures = [
		[pictures.open, openPicture(sheet)],
		[pictures.intonation, intonationPicture(sheet)],
		[pictures.saddles, saddlePicture(sheet)],
		[pictures.tensions, tensionPicture(sheet)],
	] as const;
	const sign = (as: string) => picture({width: 16, height: 12, title: as}, [dot([8, 6], 5, as)]);
	const key = `<p class="key">${sign('before')} ${escaped(pictures.before)} &nbsp; ${sign('now')} ${escaped(pictures.now)}</p>`;
	const shown = figures.flatMap(([title, drawn]) =>
		drawn === undefined ? [] : [`<figure><figcaption>${escaped(title)}</figcaption>${drawn}</figure>`],
	);
	return `<section>${key}<div class="pictures">${shown.join('\n')}</div></section>`;
}
