using System.Collections.Immutable;

namespace ServiceRules.Reporting.Layout;

/// <summary>Blocks one below the other.</summary>
public sealed class Stack(ImmutableArray<Block> children, double spacing = 0) : Block
{
    internal override Fragment Fit(Space space)
    {
        var done = new List<(Fragment Fragment, double Top)>();
        double height = 0;
        for (var index = 0; index < children.Length; index++)
        {
            var fresh = space.Fresh && done.All(entry => entry.Fragment.Height == 0);
            if (children[index] is PageBreak)
            {
                if (fresh)
                {
                    continue;
                }
                return Finish(done, space.Height, Rest(null, index + 1));
            }
            var gap = height > 0 ? spacing : 0;
            var fragment = children[index]
                .Fit(space with { Height = space.Height - height - gap, Fresh = fresh });
            if (fragment.IsNothing)
            {
                return Retreat(done, index, space);
            }
            done.Add((fragment, height + gap));
            height += fragment.Height > 0 ? gap + fragment.Height : 0;
            if (fragment.Rest is not null)
            {
                return Finish(done, height, Rest(fragment.Rest, index + 1));
            }
        }
        return Finish(done, height, null);
    }

    internal override void Tell(TextLedger ledger)
    {
        foreach (var child in children)
        {
            child.Tell(ledger);
        }
    }

    /// <summary>Takes back headings that would stand last on the page.</summary>
    private Fragment Retreat(List<(Fragment Fragment, double Top)> done, int index, Space space)
    {
        var keep = index;
        while (keep > 0 && children[keep - 1].KeepsWithNext)
        {
            keep--;
        }
        if (keep == 0 && space.Fresh)
        {
            keep = index;
        }
        if (keep == 0)
        {
            return Fragment.Nothing(this);
        }
        // Page breaks at the very top leave no entry, so count from the end.
        done.RemoveRange(Math.Max(0, done.Count - (index - keep)), Math.Min(done.Count, index - keep));
        var height = done.Count == 0 ? 0 : done[^1].Top + done[^1].Fragment.Height;
        return Finish(done, height, Rest(null, keep));
    }

    private Stack? Rest(Block? first, int from)
    {
        ImmutableArray<Block> rest = first is null ? children[from..] : [first, .. children[from..]];
        return rest.IsEmpty ? null : new Stack(rest, spacing);
    }

    private static Fragment Finish(List<(Fragment Fragment, double Top)> done, double height, Block? rest) =>
        new(
            [
                .. done.SelectMany(entry =>
                    entry.Fragment.Items.Select(item => item.Moved(new Placement(0, entry.Top)))
                ),
            ],
            height,
            rest
        );
}
