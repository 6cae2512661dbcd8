using ServiceRules.Domain.Verdicts;

namespace ServiceRules.Cli.Printing;

/// <summary>What came of a rule, and of a job, before and after.</summary>
internal static class FlipWords
{
    public static string Of(Finding? finding) =>
        finding is null ? "not judged" : Of(finding.Verdict, finding.Effect, finding.LetOut is not null);

    public static string Of(Verdict? verdict, Effect effect, bool isLetOut)
    {
        var word = verdict switch
        {
            Verdict.Met => "in",
            Verdict.NotMet => "OUT",
            Verdict.Unproven => "NOT PROVEN",
            Verdict.NotApplicable => "nothing to judge",
            _ => "not judged",
        };
        return effect switch
        {
            _ when isLetOut => $"{word} (let out)",
            Effect.Stop => $"{word} (stops)",
            Effect.Hold => $"{word} (holds)",
            Effect.Advise => $"{word} (told)",
            _ => word,
        };
    }

    public static string Of(Disposition? disposition) =>
        disposition switch
        {
            Disposition.Release => "may go out",
            Disposition.Hold => "HOLD",
            Disposition.Stop => "STOP",
            _ => "cannot be judged",
        };

    public static string Of(Subject subject) =>
        subject switch
        {
            Subject.Unit unit => $"unit {unit.Id}",
            Subject.Set => "units together",
            Subject.Programme => "programme",
            _ => "job",
        };
}
