namespace ServiceRules.Reporting.Layout;

/// <summary>Empty height; vanishes at the top of a page.</summary>
public sealed class Gap(double height) : Block
{
    internal override Fragment Fit(Space space)
    {
        if (space.Fresh)
        {
            return new Fragment([], 0, null);
        }
        return new Fragment([], Math.Max(0, Math.Min(height, space.Height)), null);
    }

    internal override void Tell(TextLedger ledger) { }
}
