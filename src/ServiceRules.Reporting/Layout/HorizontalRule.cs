namespace ServiceRules.Reporting.Layout;

/// <summary>A line across the whole width.</summary>
public sealed class HorizontalRule(Stroke stroke) : Block
{
    internal override Fragment Fit(Space space)
    {
        if (!space.Fresh && !space.Holds(stroke.Width))
        {
            return Fragment.Nothing(this);
        }
        var middle = stroke.Width / 2;
        var line = new Placed.Line(new Point(0, middle), new Point(space.Width, middle), stroke);
        var bounds = new Box(0, 0, space.Width, stroke.Width);
        return new Fragment([new Placed.Group(StructureRole.Artifact, bounds, [line])], stroke.Width, null);
    }

    internal override void Tell(TextLedger ledger) { }
}
