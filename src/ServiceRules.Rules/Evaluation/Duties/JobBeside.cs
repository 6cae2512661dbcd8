using System.Collections.Immutable;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>A job and another record of its machine, held against one another.</summary>
/// <param name="Duty">The job.</param>
/// <param name="Other">The other record.</param>
internal sealed record JobBeside(DutyFrame Duty, OtherReading Other)
{
    /// <summary>How entries of both are told in one sentence.</summary>
    public TimelineWords Words { get; } = TimelineWords.OfBoth(Duty.Reading, Other.Reading);

    /// <summary>What the job shows.</summary>
    public TimelineReading Own => Duty.Reading;

    /// <summary>What the other record shows.</summary>
    public TimelineReading Others => Other.Reading;

    /// <summary>Whose hands the job shows in the machine.</summary>
    public IEnumerable<HandsKnown> OwnHands => HandsKnown.In(Own, Others);

    /// <summary>The same, and whose hands steps of the job show at a unit.</summary>
    public IEnumerable<HandsKnown> OwnHandsAndSteps => OwnHands.Concat(HandsKnown.BySteps(Own));

    /// <summary>Whose hands the other shows in the machine; none where it is of a unit off it.</summary>
    public IEnumerable<HandsKnown> HandsOfTheOther =>
        Other.IsOffTheMachine
            ? []
            : HandsKnown
                .In(Others, Own)
                .Concat(
                    Bench
                        .Where(line => line.Act != BenchAct.ReelLapped)
                        .Select(line =>
                            HandsKnown.ByLog(
                                line.By,
                                line.At,
                                MomentOf(line),
                                HandsAtUnit.Words(line.Act, line.Unit),
                                null
                            )
                        )
                );

    /// <summary>The same, and whose hands steps of the other show at a unit.</summary>
    public IEnumerable<HandsKnown> HandsAndStepsOfTheOther =>
        Other.IsOffTheMachine ? [] : HandsOfTheOther.Concat(HandsKnown.BySteps(Others));

    /// <summary>How the other gave the machine energy; none where it is of a unit off it.</summary>
    public IEnumerable<EnergyGiven> GivenByTheOther =>
        Other.IsOffTheMachine
            ? []
            : EnergyGiven
                .In(Others)
                .Concat(
                    EnergyGiven.OutsideRuns(
                        Others,
                        Bench
                            .Where(line => line.Act == BenchAct.ReelLapped)
                            .Select(line => EnergyGiven.ByLog(Others, line))
                    )
                );

    private ImmutableArray<BenchTold> Bench => Other.Told.Bench;

    private Moment MomentOf(BenchTold line) => JudgedOrder.MomentOf(line.At, Own.Frame.Context.Zone);

    /// <summary>The name of the other record.</summary>
    public string Name => Other.Name;
}
