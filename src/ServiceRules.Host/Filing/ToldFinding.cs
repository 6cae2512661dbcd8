using ServiceRules.Application.Rows;

namespace ServiceRules.Host.Filing;

/// <summary>A finding in a list. Its sentence and its numbers stand in the assessment.</summary>
internal sealed record ToldFinding(
    string Record,
    long Entry,
    DateOnly Day,
    string Machine,
    string? Unit,
    string Rule,
    string Subject,
    string Verdict,
    string Severity,
    string Effect,
    string Reason
)
{
    public static ToldFinding Of(FindingRow row) =>
        new(
            row.Of.Record,
            row.Of.Index,
            row.Of.Day,
            row.Of.Machine,
            row.Unit,
            row.Rule,
            row.Subject,
            row.Verdict,
            row.Severity,
            row.Effect,
            row.Reason
        );
}
