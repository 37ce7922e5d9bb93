import type { Scene, SceneNode } from '../../src-core/charts/scene'

/** Every node of a scene but the groups, in the order in which they are drawn. */
export function drawnNodes(scene: Scene): readonly Exclude<SceneNode, { kind: 'group' }>[] {
  const flat = (nodes: readonly SceneNode[]): Exclude<SceneNode, { kind: 'group' }>[] =>
    nodes.flatMap((node) => (node.kind === 'group' ? flat(node.nodes) : [node]))
  return flat(scene.nodes)
}

/** The nodes of the groups called `name`. */
export function groupNamed(scene: Scene, name: string): readonly SceneNode[] {
  const search = (nodes: readonly SceneNode[]): SceneNode[] =>
    nodes.flatMap((node) => {
      if (node.kind !== 'group') return []
      return node.name === name ? [...node.nodes] : search(node.nodes)
    })
  return search(scene.nodes)
}
