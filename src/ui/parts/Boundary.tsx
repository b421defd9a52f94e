import { Component, type ComponentChildren } from 'preact';

type BoundaryProps = { readonly what: string; readonly children: ComponentChildren };

/** Keeps a bug in one place from taking the rest of the screen away: what is logged is safe, and the other parts go on. */
export class Boundary extends Component<BoundaryProps, { failed: string | null }> {
  override state = { failed: null as string | null };

  static override getDerivedStateFromError(error: unknown): { failed: string } {
    return { failed: error instanceof Error ? error.message : String(error) };
  }

  override render() {
    if (this.state.failed === null) return this.props.children;
    return (
      <div class="card" role="alert">
        <p>
          <strong>{this.props.what} stopped working.</strong> What was logged is kept.
        </p>
        <p class="hint">{this.state.failed}</p>
        <button type="button" class="button" onClick={() => this.setState({ failed: null })}>
          Show it again
        </button>
      </div>
    );
  }
}
