using System.Collections.Immutable;
using ServiceRules.Domain;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Verdicts;

namespace ServiceRules.Application.Recall;

/// <summary>A recall as a document: what other programs read of it.</summary>
public sealed record RecallDocument(
    Id<Instrument> Instrument,
    InstrumentKind? Kind,
    PrintedLength Error,
    PrintedLength? Uncertainty,
    PrintedLength? Leaf,
    DateOnly? From,
    DateOnly? Until,
    RecallDocument.Count Totals,
    ImmutableArray<RecallDocument.Job> Records
)
{
    /// <summary>How many of each.</summary>
    public sealed record Count(
        int Files,
        int Unusable,
        int OutsideTheTime,
        int Records,
        int Stand,
        int Change,
        int CannotBeTold,
        int ReleasedChange,
        int ReleasedCannotBeTold
    );

    /// <summary>One record.</summary>
    public sealed record Job(
        Id<ServiceRecord> Record,
        DateOnly Date,
        Id<MachineVisit> Machine,
        ErrorOnTheDay OnTheDay,
        int Readings,
        Disposition Was,
        Disposition WouldBe,
        RecallAnswer Release,
        ImmutableArray<Answer> Verdicts
    );

    /// <summary>One verdict.</summary>
    public sealed record Answer(string Rule, string Subject, RecallAnswer Comes, Stand Was, Stand WouldBe);

    /// <summary>How a finding stood, or would stand.</summary>
    public sealed record Stand(Verdict Verdict, Effect Effect, string Statement);

    /// <summary>The document of a recall.</summary>
    public static RecallDocument Of(Recalled recalled)
    {
        ArgumentNullException.ThrowIfNull(recalled);
        var found = recalled.Found;
        return new(
            found.Instrument,
            recalled.Kind,
            found.Error,
            found.Uncertainty,
            found.Leaf,
            found.From,
            found.Until,
            Counted(recalled),
            [.. recalled.Records.Select(JobOf)]
        );
    }

    private static Count Counted(Recalled recalled)
    {
        int With(RecallAnswer answer) => recalled.Records.Sum(record => record.With(answer).Count());
        int Released(RecallAnswer answer) => recalled.Records.Count(record => record.Release == answer);
        return new(
            recalled.Files.Records,
            recalled.Files.Problems.Length,
            recalled.OutsideTheTime,
            recalled.Records.Length,
            With(RecallAnswer.Stands),
            With(RecallAnswer.Changes),
            With(RecallAnswer.CannotBeTold),
            Released(RecallAnswer.Changes),
            Released(RecallAnswer.CannotBeTold)
        );
    }

    private static Job JobOf(RecalledRecord record) =>
        new(
            record.Record.Id,
            record.Record.Date,
            record.Record.Machine.Id,
            record.OnTheDay,
            record.Readings,
            record.Was.Disposition,
            record.WouldBe.Disposition,
            record.Release,
            [
                .. record.Verdicts.Select(one => new Answer(
                    one.Was.Rule,
                    one.Was.Subject.Key,
                    one.Answer,
                    StandOf(one.Was),
                    StandOf(one.WouldBe)
                )),
            ]
        );

    private static Stand StandOf(Finding finding) => new(finding.Verdict, finding.Effect, finding.Statement);
}
