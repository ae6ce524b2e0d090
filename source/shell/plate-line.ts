import type {PlateRow} from '../session/bench.ts';
import type {InstrumentSheet} from '../session/sheet.ts';
import type {Glyphs} from '../terminal/glyphs.ts';
import {cutLine, type Line, span, widthOf} from '../terminal/line.ts';
import {formatLengthSpread, formatTail} from '../units/length.ts';
import {halfWidth} from '../units/spread.ts';
import {formatTurns} from '../units/turns.ts';

/** The bridge plate in one row: where it lies now, where it will lie at pitch, what the claw needs. */
export function plateLine(
	plate: PlateRow,
	{units, plateWishMm}: InstrumentSheet,
	{width, glyphs, blocked}: {readonly width: number; readonly glyphs: Glyphs; readonly blocked: boolean},
): Line {
	const off = plate.tailAtPitchMm.mean - plateWishMm;
	const isFine = Math.abs(off) + halfWidth(plate.tailAtPitchMm) < 0.5;
	const isMeasured = plate.measured?.touchedSince === 0;
	const now = blocked
		? 'blocked'
		: plate.measured && isMeasured
			? `tail ${formatTail(plate.measured.tailMm, units)}`
			: `tail ${formatLengthSpread(plate.tailMm, units, {signed: true})}`;
	const saying = (nowSaid: string): Line => [
		span('plate  ', 'strong'),
		span(nowSaid),
		span('   at pitch ', 'quiet'),
		span(formatLengthSpread(plate.tailAtPitchMm, units, {signed: true}), isFine ? 'good' : 'plain'),
		span('   claw ', 'quiet'),
		span(isFine ? 'as it is' : formatTurns(plate.clawTurns.mean), isFine ? 'good' : 'plain'),
	];
	// Which way the claw goes is worth more than that the height was measured.
	const whole = saying(!blocked && isMeasured ? `${now} (measured)` : now);
	return cutLine(widthOf(whole) <= width ? whole : saying(now), width, glyphs.cut);
}
