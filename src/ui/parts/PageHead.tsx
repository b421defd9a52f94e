import { back } from '../routes';

/** The head of a page: the way back, to Today where the app began here, and what the page is. */
export function PageHead({ title }: { title: string }) {
  return (
    <header class="page-head">
      <button type="button" class="button button-plain" onClick={() => back({ page: 'today' })}>
        ‹ Back
      </button>
      <h1 dir="auto">{title}</h1>
    </header>
  );
}
