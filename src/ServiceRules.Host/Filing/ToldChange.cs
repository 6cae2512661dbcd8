using ServiceRules.Application.Ledger;

namespace ServiceRules.Host.Filing;

/// <summary>A disposition or a finding that is another than before.</summary>
/// <param name="Subject"><c>job</c>, <c>set</c> or <c>unit/</c> and the unit.</param>
/// <param name="Rule">The rule; left out for a disposition.</param>
/// <param name="Was">As it was; left out where there was none.</param>
/// <param name="Is">As it is; left out where there is none.</param>
/// <param name="Statement">The finding in a sentence; left out for a disposition.</param>
internal sealed record ToldChange(string Subject, string? Rule, string? Was, string? Is, string? Statement)
{
    public static ToldChange Of(VerdictChange change) =>
        new(change.Subject, change.Rule, Word(change.Old), Word(change.New), change.Statement);

    // As the formats spell it.
    private static string? Word(string? word) => word?.Replace(' ', '-');
}
