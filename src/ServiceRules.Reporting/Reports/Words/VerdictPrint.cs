using ServiceRules.Domain.Verdicts;
using ServiceRules.Reporting.Layout;

namespace ServiceRules.Reporting.Reports.Words;

/// <summary>Word, mark and colour of an outcome; always all three.</summary>
internal sealed record VerdictPrint(string Word, Mark Mark, Ink Ink)
{
    public static VerdictPrint Of(Verdict verdict) =>
        verdict switch
        {
            Verdict.Met => new("in", Mark.In, Palette.In),
            Verdict.NotMet => new("out", Mark.Out, Palette.Out),
            Verdict.Unproven => new("not proven", Mark.NotProven, Palette.NotProven),
            Verdict.NotApplicable => new("does not apply", Mark.DoesNotApply, Palette.Quiet),
            _ => throw new ArgumentOutOfRangeException(nameof(verdict), verdict, null),
        };

    /// <summary>For steps and states of the job, which are shown by the record or not.</summary>
    public static VerdictPrint OfSafeWork(Verdict verdict) =>
        verdict switch
        {
            Verdict.Met => Of(verdict) with { Word = "record shows" },
            Verdict.NotMet => Of(verdict) with { Word = "record does not show" },
            _ => Of(verdict),
        };

    public static VerdictPrint Of(Disposition disposition, RecordState state) =>
        disposition switch
        {
            Disposition.Release => new("may go out", Mark.In, Palette.In),
            Disposition.Hold => new("hold", Mark.Out, Palette.Out),
            Disposition.Stop when state == RecordState.Open => new(
                "make safe first",
                Mark.Stop,
                Palette.Stop
            ),
            Disposition.Stop => new("safe work not shown", Mark.Stop, Palette.Stop),
            _ => throw new ArgumentOutOfRangeException(nameof(disposition), disposition, null),
        };
}
