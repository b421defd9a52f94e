import * as blocks from './log/blockActs';
import { bodyMasses } from './log/bodyMasses';
import * as care from './log/careActs';
import * as devices from './log/deviceNames';
import { eraseClient } from './log/eraseActs';
import { exportLog } from './log/export';
import * as library from './log/libraryActs';
import { logSet, padDraft } from './log/logSet';
import * as plans from './log/planActs';
import * as records from './log/recordActs';
import * as rounds from './log/roundActs';
import * as sessions from './log/sessionActs';
import * as sets from './log/setActs';
import { choose } from './log/settingsActs';
import * as stubs from './log/stubActs';
import * as targets from './log/targetActs';
import * as templates from './log/templateActs';
import * as work from './log/workActs';
import type { Acts } from './ui/app';

/** Everything a tap can change, as one part that loads behind the first screen: Today is painted before it is there. */
export const acts: Acts = {
  ...library,
  ...sessions,
  ...sets,
  ...plans,
  ...blocks,
  ...rounds,
  ...templates,
  ...care,
  ...work,
  ...devices,
  ...records,
  ...stubs,
  ...targets,
  eraseClient,
  logSet,
  padDraft,
  choose,
  exportLog,
  bodyMasses,
};
