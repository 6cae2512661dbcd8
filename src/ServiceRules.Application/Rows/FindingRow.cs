namespace ServiceRules.Application.Rows;

/// <summary>One finding on one version of a record. What does not apply has none; its sentence stands in the assessment.</summary>
/// <param name="Of">The version.</param>
/// <param name="Ordinal">Its place in the assessment, counted from 0.</param>
/// <param name="Rule">Identity of the rule.</param>
/// <param name="Subject">What it speaks of, as the assessment says it.</param>
/// <param name="Unit">The unit that it speaks of; null when it speaks of the job or the set.</param>
/// <param name="Verdict">The outcome.</param>
/// <param name="Severity">How serious a breach is.</param>
/// <param name="Effect">What it does to the disposition.</param>
/// <param name="Reason">Why, in one word.</param>
public sealed record FindingRow(
    RecordRow Of,
    int Ordinal,
    string Rule,
    string Subject,
    string? Unit,
    string Verdict,
    string Severity,
    string Effect,
    string Reason
);
