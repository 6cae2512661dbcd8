using ServiceRules.Domain.Verdicts;

namespace ServiceRules.Application.Authoring;

/// <summary>What came of a rule on the first unit of a changed fixture.</summary>
/// <param name="Verdict">Its verdict.</param>
/// <param name="Effect">What that does.</param>
/// <param name="IsReleased">Whether the job and every unit may go out.</param>
internal sealed record TriedCase(Verdict Verdict, Effect Effect, bool IsReleased);
