import { Component, type ComponentType, type FunctionComponent, h } from 'preact';

/**
 * Returns a component that is drawn again only where its properties are not the `same`: a long record has one line that changes at a tap,
 * and many that do not.
 */
export function still<P extends object>(draw: FunctionComponent<P>, same: (a: P, b: P) => boolean): ComponentType<P> {
  return class Still extends Component<P> {
    override shouldComponentUpdate(next: P): boolean {
      return !same(this.props, next);
    }

    override render() {
      return h(draw, this.props);
    }
  };
}
