using System.Collections.Immutable;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Model;

namespace ServiceRules.Application.Recall;

/// <summary>One record in which the gauge was used.</summary>
public sealed record RecalledRecord
{
    /// <summary>The file that it stands in.</summary>
    public required string File { get; init; }

    /// <summary>The record as written down.</summary>
    public required ServiceRecord Record { get; init; }

    /// <summary>The rules that it was judged by.</summary>
    public required RuleBook Book { get; init; }

    /// <summary>The job's outcome as it was.</summary>
    public required Outcome Was { get; init; }

    /// <summary>The job's outcome with the readings corrected for the whole error.</summary>
    public required Outcome WouldBe { get; init; }

    /// <summary>What is known of the error on its day.</summary>
    public required ErrorOnTheDay OnTheDay { get; init; }

    /// <summary>Readings with the gauge in it.</summary>
    public required int Readings { get; init; }

    /// <summary>The verdicts that rest on readings with the gauge, those that do not stand first.</summary>
    public required ImmutableArray<RecalledVerdict> Verdicts { get; init; }

    /// <summary>
    /// For a job that went out: whether it would have gone out all the same. One that was kept in has nothing to lose,
    /// and stands.
    /// </summary>
    public RecallAnswer Release =>
        Was.Disposition != Disposition.Release ? RecallAnswer.Stands
        : OnTheDay == ErrorOnTheDay.Absent || IsReleasedThroughout ? RecallAnswer.Stands
        : OnTheDay == ErrorOnTheDay.InFull ? RecallAnswer.Changes
        : RecallAnswer.CannotBeTold;

    /// <summary>Whether it goes out with every part of the error taken out that was tried.</summary>
    public required bool IsReleasedThroughout { get; init; }

    /// <summary>Its verdicts with one answer.</summary>
    public IEnumerable<RecalledVerdict> With(RecallAnswer answer) =>
        Verdicts.Where(verdict => verdict.Answer == answer);
}
