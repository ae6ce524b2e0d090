import type {Bench} from '../../session/bench.ts';
import {type Line, line, span, spread} from '../../terminal/line.ts';
import {Lines, useLook} from '../../terminal/look.tsx';
import {formatLengthSpread, formatTail, formatTypedLength} from '../../units/length.ts';
import {formatTurns} from '../../units/turns.ts';
import {scaleFor, sideView} from './side-view.ts';
import {words} from './words.ts';

/** The bridge from the side, as it is believed to stand now. */
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
	const {plate, sheet} = bench;
	const {panel} = words;
	const picture = Math.min(width, 60);
	const room = height - 4;
	const rows = Math.max(3, Math.min(7, room % 2 === 0 ? room - 1 : room));
	const heights = {tailMm: plate.tailMm.mean, wishMm: sheet.plateWishMm};
	const mmPerRow = scaleFor(Object.values(heights), rows);
	const lines: readonly Line[] = [
		line(panel.title(formatTypedLength(mmPerRow, sheet.units)), 'quiet'),
		...sideView({...heights, mmPerRow, rows, width: picture, glyphs}),
		spread([span(panel.neck, 'quiet')], [span(panel.tail, 'quiet')], picture),
		line(
			[
				panel.now(formatLengthSpread(plate.tailMm, sheet.units, {signed: true})),
				panel.atPitch(formatLengthSpread(plate.tailAtPitchMm, sheet.units, {signed: true})),
			].join('   '),
		),
		line(
			[
				panel.wish(formatTail(sheet.plateWishMm, sheet.units)),
				...(plate.measured ? [panel.measured(formatTail(plate.measured.tailMm, sheet.units))] : []),
				panel.claw(formatTurns(plate.clawTurnsMade)),
			].join('   '),
		),
	];
	return <Lines lines={lines} width={width} height={height} />;
}
