import type {Bench} from '../../session/bench.ts';
import type {Glyphs} from '../../terminal/glyphs.ts';
import {type Line, line, span} from '../../terminal/line.ts';
import {Lines, useLook} from '../../terminal/look.tsx';
import {formatForce} from '../../units/quantities.ts';
import {words} from './words.ts';

/** Pull of each string at pitch, as bars: what the springs will have to hold. */
export function Panel({
	bench,
	width,
	height,
}: {
	readonly bench: Bench;
	readonly width: number;
	readonly height: number;
}) {
	const {glyphs} = useLook();
	return <Lines lines={pullLines(bench, width, glyphs)} width={width} height={height} />;
}

function pullLines({strings, sheet}: Bench, width: number, glyphs: Glyphs): readonly Line[] {
	const most = Math.max(...strings.flatMap(row => [row.targetTensionN, row.tensionBeforeN ?? 0]));
	const cells = Math.max(5, Math.min(40, width - 30));
	const isChange = strings.some(({tensionBeforeN}) => tensionBeforeN !== undefined);
	return [
		line(isChange ? words.panel.titleChange : words.panel.title, 'quiet'),
		...strings.map(({string, note, targetTensionN, tensionBeforeN}) => {
			const bar = Math.round((targetTensionN / most) * cells);
			const before = tensionBeforeN === undefined ? undefined : Math.round((tensionBeforeN / most) * cells);
			return [
				span(`${string} ${note}`.padEnd(7)),
				...barSpans(bar, before, cells, glyphs),
				span(` ${formatForce(targetTensionN, sheet.units)}`),
			];
		}),
	];
}

/** After as a full bar; where it was before, a mark. */
function barSpans(bar: number, before: number | undefined, cells: number, glyphs: Glyphs): Line {
	const text = glyphs.full.repeat(bar) + glyphs.empty.repeat(cells - bar);
	const places = [...text];
	if (before === undefined || before < 1) return [span(text, 'accent')];
	return [
		span(places.slice(0, before - 1).join(''), 'accent'),
		span(glyphs.aim, 'attention'),
		span(places.slice(before).join(''), 'accent'),
	];
}
