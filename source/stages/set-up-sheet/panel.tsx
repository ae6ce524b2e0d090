import type {Bench} from '../../session/bench.ts';
import {sheetText} from '../../session/report/as-text.ts';
import {setUpSheet} from '../../session/report/set-up-sheet.ts';
import {wrapWords} from '../../terminal/fit.ts';
import {type Line, line} from '../../terminal/line.ts';
import {Lines} from '../../terminal/look.tsx';
import {words} from './words.ts';

/** As much of the sheet as there is room for. */
export function Panel({
	bench,
	width,
	height,
}: {
	readonly bench: Bench;
	readonly width: number;
	readonly height: number;
}) {
	return <Lines lines={sheetLines(bench, width, height)} width={width} height={height} />;
}

function sheetLines(bench: Bench, width: number, height: number): readonly Line[] {
	const all = sheetText(setUpSheet(bench)).flatMap(text => wrapWords(text, width));
	if (all.length <= height) return all.map(text => line(text));
	return [...all.slice(0, height - 1).map(text => line(text)), line(words.more(all.length - height + 1), 'quiet')];
}
