using System.Collections.Immutable;

namespace ServiceRules.Reporting.Layout;

/// <summary>
/// A finished drawing with the same told in words. Never cut: one that is wider than its room or taller than a page
/// is made smaller.
/// </summary>
public sealed class Picture(double width, double height, ImmutableArray<Placed> items, string? alternative)
    : Block
{
    internal override Fragment Fit(Space space)
    {
        var scale = Math.Min(1, Math.Min(space.Width / width, space.FullHeight / height));
        if (!space.Fresh && !space.Holds(height * scale))
        {
            return Fragment.Nothing(this);
        }
        var group = new Placed.Group(
            alternative is null ? StructureRole.Artifact : StructureRole.Figure,
            new Box(0, 0, width, height),
            items,
            alternative
        );
        return new Fragment([group.Moved(new Placement(0, 0, scale))], height * scale, null);
    }

    internal override void Tell(TextLedger ledger)
    {
        if (alternative is null)
        {
            return;
        }
        foreach (var text in items.OfType<Placed.Text>())
        {
            ledger.OweVisible(text.Content);
        }
    }
}
