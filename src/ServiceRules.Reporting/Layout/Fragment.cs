using System.Collections.Immutable;

namespace ServiceRules.Reporting.Layout;

/// <summary>What was placed, from the block's own top left corner, and what is left over.</summary>
internal sealed record Fragment(ImmutableArray<Placed> Items, double Height, Block? Rest)
{
    public bool IsNothing { get; private init; }

    /// <summary>Not even the first line fits.</summary>
    public static Fragment Nothing(Block block) => new([], 0, block) { IsNothing = true };
}
