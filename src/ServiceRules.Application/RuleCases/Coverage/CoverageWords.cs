using ServiceRules.Domain.Verdicts;

namespace ServiceRules.Application.RuleCases.Coverage;

/// <summary>The words in which coverage is told.</summary>
internal static class CoverageWords
{
    public const string Holds = "holds";

    public const string KeepsOut = "alone keeps the rule out";

    public const string Kept = "kept";

    public const string Broken = "broken";

    public static string Of(Verdict verdict) => FileWords.Of(verdict);
}
