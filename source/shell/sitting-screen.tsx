import {Box, useCursor} from 'ink';
import {useLook} from '../terminal/look.tsx';
import {Lines} from '../terminal/look.tsx';
import type {Ports} from './ports.ts';
import type {Regions} from './regions.ts';
import {seenBy} from './seen.ts';
import {sittingFrame} from './sitting-frame.ts';
import type {Sitting} from './state.ts';

/** One set-up, full screen. */
export function SittingScreen({
	sitting,
	ports,
	regions,
}: {
	readonly sitting: Sitting;
	readonly ports: Ports;
	readonly regions: Regions;
}) {
	const {glyphs} = useLook();
	const {bench, stage, task} = seenBy(sitting, ports);
	const {above, panelHeight, below, side, cursor} = sittingFrame(sitting, ports, regions, glyphs);
	const {width, heights} = regions;
	// The terminal's own cursor: screen magnifiers follow it.
	useCursor().setCursorPosition({x: cursor.x + 1, y: cursor.y});
	const Panel = stage?.Panel;
	return (
		<Box paddingLeft={1}>
			<Box flexDirection="column" width={width} flexShrink={0}>
				<Lines lines={above} width={width} />
				{Panel && panelHeight > 0 ? (
					<Box height={panelHeight} width={width} overflow="hidden" flexDirection="column" flexShrink={0}>
						<Panel bench={bench} task={task} width={width} height={panelHeight} />
					</Box>
				) : null}
				<Lines lines={below} width={width} />
			</Box>
			{regions.side ? (
				<Box
					flexDirection="column"
					width={regions.side.width}
					marginLeft={2}
					marginTop={heights.header + heights.trail + 1}
					flexShrink={0}
				>
					<Lines lines={side} width={regions.side.width} height={regions.side.height} />
				</Box>
			) : null}
		</Box>
	);
}
