namespace ServiceRules.Reporting.Layout;

/// <summary>Moves its content to the next page rather than cut it; cuts only what no page could hold.</summary>
public sealed class Together(Block content) : Block
{
    internal override Fragment Fit(Space space)
    {
        var here = content.Fit(space);
        if (here.IsNothing)
        {
            return Fragment.Nothing(this);
        }
        if (here.Rest is null || space.Fresh)
        {
            return here;
        }
        return content.Fit(space.Whole()).Rest is null ? Fragment.Nothing(this) : here;
    }

    internal override void Tell(TextLedger ledger) => content.Tell(ledger);
}
