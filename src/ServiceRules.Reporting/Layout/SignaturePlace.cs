namespace ServiceRules.Reporting.Layout;

/// <summary>
/// Content that is also the place of the visible signature: readers that know signatures make it a field to click.
/// Exactly one in a signed document; never cut.
/// </summary>
public sealed class SignaturePlace(Block content) : Block
{
    internal override Fragment Fit(Space space)
    {
        var inner = new Together(content).Fit(space);
        if (inner.IsNothing)
        {
            return Fragment.Nothing(this);
        }
        var box = new Box(0, 0, space.Width, inner.Height);
        return inner with { Items = [.. inner.Items, new Placed.SignatureBox(box)] };
    }

    internal override void Tell(TextLedger ledger) => content.Tell(ledger);
}
