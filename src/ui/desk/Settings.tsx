import { useState } from 'preact/hooks';
import { EFFORT_SCALES, FIRST_DAYS, REST_GROUPS, type RestGroup, type SettingPath } from '../../domain/settings';
import { HEIGHT_UNITS, LOAD_UNITS } from '../../domain/units';
import type { Json } from '../../merge/row';
import { useApp, useRedraw, useWatch } from '../app';
import { WEEK_DAY } from '../blockWords';
import { duration } from '../format';
import { Chip, ChipRow } from '../parts/Chip';
import { PageHead } from '../parts/PageHead';
import { say } from '../parts/say';
import { TextField } from '../parts/TextField';
import { DEVICE, deviceNameSentence } from '../recordWords';
import {
  LANGUAGE_HINT,
  REST_GROUP,
  REST_HINT,
  SCALE,
  SCALE_HINT,
  THEME,
  THEME_HINT,
  UNITS,
  UNITS_HINT,
} from '../settingsWords';
import { chooseTheme, THEMES, themeOf } from '../theme/theme';

/** What is chosen once for everything: each choice is one tap, kept at once, and changes nothing that was logged. */
export function Settings() {
  const { log, acts, views } = useApp();
  useWatch(['status', 'kind:settings']);
  const { phase, seat } = log.status();
  const chosen = views.settings(log);
  const canWrite = phase === 'open' && seat === 'writer';
  const choose = (path: SettingPath, value: Json) => () => {
    if (canWrite) void acts.choose(log, path, value);
  };
  return (
    <main class="page">
      <PageHead title="Settings" />
      {phase === 'open' && seat === 'follower' ? (
        <p class="fault" role="alert">
          Another tab of this app is the one that writes: change settings there.
        </p>
      ) : null}
      <section class="card" aria-label="units">
        <h2>Units</h2>
        <p class="hint">{UNITS_HINT}</p>
        <ChipRow label="loads in" of="many">
          {LOAD_UNITS.map((unit) => (
            <Chip key={unit} chosen={chosen.load === unit} onTap={choose('load', unit)}>
              {UNITS[unit]}
            </Chip>
          ))}
        </ChipRow>
        <ChipRow label="heights and distances in" of="many">
          {HEIGHT_UNITS.map((unit) => (
            <Chip key={unit} chosen={chosen.length === unit} onTap={choose('length', unit)}>
              {UNITS[unit]}
            </Chip>
          ))}
        </ChipRow>
      </section>
      <section class="card" aria-label="effort">
        <h2>Effort of a set as</h2>
        <ChipRow label="effort as" of="many">
          {EFFORT_SCALES.map((scale) => (
            <Chip key={scale} chosen={chosen.effort === scale} onTap={choose('effort', scale)}>
              {SCALE[scale]}
            </Chip>
          ))}
        </ChipRow>
        <p class="hint">{SCALE_HINT}</p>
      </section>
      <section class="card" aria-label="first day of the week">
        <h2>A week begins on</h2>
        <ChipRow label="first day of the week" of="many">
          {FIRST_DAYS.map((day) => (
            <Chip key={day} chosen={chosen.firstDay === day} onTap={choose('firstDay', day)}>
              {WEEK_DAY[day]}
            </Chip>
          ))}
        </ChipRow>
      </section>
      <section class="card" aria-label="rest">
        <h2>Rest after a set</h2>
        <p class="hint">{REST_HINT}</p>
        {REST_GROUPS.map((group) => (
          <Rest key={group} group={group} seconds={chosen.rest[group]} onRest={choose} />
        ))}
      </section>
      <Theme />
      <DeviceName key={phase} canWrite={canWrite} />
      <section class="card" aria-label="language">
        <h2>Language</h2>
        <p class="hint">{LANGUAGE_HINT}</p>
      </section>
    </main>
  );
}

const RESTS = [30, 45, 60, 90, 120, 150, 180, 240] as const;

function Rest({
  group,
  seconds,
  onRest,
}: {
  group: RestGroup;
  seconds: number | undefined;
  onRest: (path: SettingPath, value: Json) => () => void;
}) {
  return (
    <>
      <h3>{REST_GROUP[group]}</h3>
      <ChipRow label={`rest, ${REST_GROUP[group]}`} of="many">
        <Chip chosen={seconds === undefined} onTap={onRest(`rest/${group}`, null)}>
          as the library says
        </Chip>
        {RESTS.map((one) => (
          <Chip key={one} chosen={seconds === one} onTap={onRest(`rest/${group}`, one)}>
            {duration(one)}
          </Chip>
        ))}
      </ChipRow>
    </>
  );
}

function Theme() {
  const { notes } = useApp();
  const redraw = useRedraw();
  const theme = themeOf(notes);
  return (
    <section class="card" aria-label="theme">
      <h2>Light or dark</h2>
      <ChipRow label="theme" of="many">
        {THEMES.map((one) => (
          <Chip
            key={one}
            chosen={theme === one}
            onTap={() => {
              chooseTheme(notes, one);
              redraw();
            }}
          >
            {THEME[one]}
          </Chip>
        ))}
      </ChipRow>
      <p class="hint">{THEME_HINT}</p>
    </section>
  );
}

/** What this device is called where two wrote different things. */
function DeviceName({ canWrite }: { canWrite: boolean }) {
  const { log, acts } = useApp();
  const device = acts.thisDevice(log);
  const [name, setName] = useState(acts.deviceNames(log).get(device) ?? '');
  const [fault, setFault] = useState<string>();
  if (device === '') return null;
  const keep = () => {
    const named = acts.nameDevice(log, device, name);
    setFault(named.ok ? undefined : deviceNameSentence(named.error));
    if (named.ok) say('Name kept.');
  };
  return (
    <section class="card" aria-label="this device">
      <h2>This device</h2>
      <TextField label={DEVICE.label} value={name} onText={setName} hint={DEVICE.hint} fault={fault} />
      <button type="button" class="button" disabled={!canWrite} onClick={keep}>
        Keep this name
      </button>
    </section>
  );
}
