using ServiceRules.Application.Submitting;

namespace ServiceRules.Host.Filing;

/// <summary>That a stored record was judged again, in the light of what another one shows or by other rules.</summary>
/// <param name="Id">The record that was judged again.</param>
/// <param name="Judged">Where its new assessment stands, when it was filed and why. The earlier one stays.</param>
/// <param name="Changes">What is judged otherwise than before.</param>
internal sealed record ToldTurn(string Id, ToldEntry Judged, IReadOnlyList<ToldChange> Changes)
{
    public static ToldTurn Of(TurnedRecord turned) =>
        new(
            turned.Entry.Entry.Subject,
            ToldEntry.Of(turned.Entry),
            [.. turned.Changes.Select(ToldChange.Of)]
        );
}
