using System.Collections.Immutable;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Verdicts;

namespace ServiceRules.Rules.Evaluation.Timeline;

/// <summary>What another record shows, read as its own timeline would be.</summary>
/// <param name="Told">What is known of it.</param>
/// <param name="Reading">Its timeline.</param>
internal sealed record OtherReading(OtherRecord Told, TimelineReading Reading)
{
    /// <summary>Its name.</summary>
    public string Name => Told.Record.Text;

    /// <summary>
    /// It is of a unit off the machine, on a bench where nothing can be switched on, and no entry says otherwise: its hands are in
    /// no machine.
    /// </summary>
    public bool IsOffTheMachine { get; } =
        PlaceContradicted.IsOffTheMachine(Reading.Frame.Record with { Place = Told.Place }, Reading.Frame);

    /// <summary>The records of the machine of a job, as they are given.</summary>
    public static ImmutableArray<OtherReading> AtTheMachine(JobFrame frame) =>
        [
            .. frame
                .Context.OtherRecords.Where(other => other.Machine == frame.Record.Machine.Id)
                .Select(other => new OtherReading(other, TimelineReading.Of(FrameOf(frame, other)))),
        ];

    // Of another record no more is known than these entries: nothing but what they say can be read from it.
    private static JobFrame FrameOf(JobFrame frame, OtherRecord other)
    {
        var record = frame.Record with
        {
            Id = other.Record,
            Timeline = other.Timeline,
            SignOff = other.SignOff,
            People = [],
            Units = [],
            Releases = [],
            FollowUp = null,
        };
        var context = frame.Context with { OtherRecords = [], Elsewhere = [] };
        return frame with
        {
            Record = record,
            Context = context,
            Units = [],
            Events = JudgedOrder.Of(record.Timeline, context.Zone),
            Days = JobDays.Of(record, context),
            State = other.SignOff is null ? RecordState.Open : RecordState.SignedOff,
        };
    }
}
