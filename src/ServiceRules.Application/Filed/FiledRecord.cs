using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Evidence;
using ServiceRules.Rules.Model;

namespace ServiceRules.Application.Filed;

/// <summary>A service record as it lies in a file, with the context and rules that came with it, if any did.</summary>
/// <param name="File">The file, as it was named.</param>
/// <param name="Record">What it says.</param>
/// <param name="Document">Its canonical form.</param>
/// <param name="Context">The frozen context beside or around it; null: the site's registers speak.</param>
/// <param name="Book">The rules that it was judged by, out of its signed report; null: the rules in force.</param>
public sealed record FiledRecord(
    string File,
    ServiceRecord Record,
    CanonicalDocument Document,
    AssessmentContext? Context,
    RuleBook? Book
)
{
    /// <summary>The account or key that sent it to a service; null where no sign-in was checked, or nothing tells.</summary>
    public string? Sender { get; init; }
}
