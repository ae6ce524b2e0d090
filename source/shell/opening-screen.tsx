import {Box, useCursor} from 'ink';
import {wrapTo} from '../terminal/fit.ts';
import {block, helpLines, hintLine} from '../terminal/keys.ts';
import {type Line, line, toHeight} from '../terminal/line.ts';
import {Lines, useLook} from '../terminal/look.tsx';
import {entryLine} from './entry-line.ts';
import {openingKeys} from './opening-keys.ts';
import {openingLines} from './opening-lines.ts';
import type {Ports} from './ports.ts';
import type {Opening} from './state.ts';

/** The first screen. */
export function OpeningScreen({
	opening,
	ports,
	columns,
	rows,
}: {
	readonly opening: Opening;
	readonly ports: Ports;
	readonly columns: number;
	readonly rows: number;
}) {
	const {glyphs} = useLook();
	const width = columns - 2;
	const height = rows - 1;
	const keys = openingKeys(opening);
	const room = height - 5;
	const list = opening.isHelpOpen
		? block('Keys', helpLines(keys, width))
		: openingLines(opening, ports.stages, {width, rows: room, glyphs, now: ports.now()});
	const message = opening.message;
	const said = message ? wrapTo(message.text, width, 2, glyphs.cut).map(text => line(text, message.as)) : [];
	const naming = opening.naming && entryLine({prompt: 'new name', entry: opening.naming.entry}, {width, glyphs});
	useCursor().setCursorPosition(naming ? {x: naming.cursor + 1, y: height - 2} : undefined);
	const foot: readonly Line[] = [...toHeight(said, 2), naming?.line ?? [], hintLine(keys, width)];
	return (
		<Box paddingLeft={1} flexDirection="column" width={columns}>
			<Lines lines={[[], ...list]} width={width} height={room + 1} />
			<Lines lines={foot} width={width} />
		</Box>
	);
}
