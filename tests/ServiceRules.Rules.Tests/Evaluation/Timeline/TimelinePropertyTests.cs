using System.Collections.Immutable;
using System.Globalization;
using FsCheck.Xunit;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;

namespace ServiceRules.Rules.Tests.Evaluation.Timeline;

/// <summary>What must hold whatever the timeline: instants decide, and nothing required can be left out.</summary>
public sealed class TimelinePropertyTests
{
    private static readonly ImmutableArray<string> Ids =
    [
        "B01",
        "B02",
        "B03",
        "B04",
        "B06",
        "B07",
        "B11",
        "B13",
        "B15",
        "C01",
        "C03",
        "C05",
        "C08",
    ];

    [Property(MaxTest = 30)]
    public bool Judge_SameInstantsInOtherOffsets_SameVerdicts(int which, int[] offsets)
    {
        var published = Chosen(which);
        var rewritten = published with
        {
            Entries =
            [
                .. published.Entries.Select(
                    (entry, index) =>
                        entry with
                        {
                            At = InOffset(
                                entry.At,
                                offsets.Length == 0 ? 0 : offsets[index % offsets.Length] % 12
                            ),
                        }
                ),
            ],
        };
        return Verdicts(published).SequenceEqual(Verdicts(rewritten));
    }

    [Property(MaxTest = 30)]
    public bool Judge_EntriesOfDifferentInstantsInAnyOrder_SameVerdicts(int which, int seed)
    {
        var published = Chosen(which);
        var instants = published.Entries.GroupBy(entry => ((RecordedTime.Instant)entry.At).Moment).ToList();
        // Entries of one instant keep their order; groups are rotated and reversed.
        var turned = instants
            .Skip(Math.Abs(seed % instants.Count))
            .Concat(instants.Take(Math.Abs(seed % instants.Count)));
        var shuffled = published with
        {
            Entries = [.. (seed % 2 == 0 ? turned : turned.Reverse()).SelectMany(group => group)],
        };
        return Verdicts(published).SequenceEqual(Verdicts(shuffled));
    }

    [Fact]
    public void Judge_AnyOneStepLeftOut_SomethingIsNoLongerMet()
    {
        var complete = MakeSafe.Complete with
        {
            People =
            [
                SafetyCase.Person("tech-01"),
                SafetyCase.Person("op-01", Domain.Records.JobRole.Affected),
            ],
        };
        Assert.All(Base, check => Assert.Equal(Verdict.Met, complete.Judge(check).Verdict));

        // Taking locks off is asked by no base rule, and a start before handing back is not needed.
        var needed = complete.Entries.Where(entry =>
            entry.Kind is not (TimelineEventKind.LockRemoved or TimelineEventKind.MachineStarted)
        );
        Assert.All(
            needed,
            left =>
            {
                var without = complete with { Entries = complete.Entries.Remove(left) };
                Assert.Contains(Base, check => without.Judge(check).Verdict != Verdict.Met);
            }
        );
    }

    private static IEnumerable<Model.Check> Base =>
        FoundationChecks
            .ByName.Values.Concat(
                new[]
                {
                    TimelineEventKind.DriveDisengaged,
                    TimelineEventKind.UnitsLowered,
                    TimelineEventKind.ParkingBrakeSet,
                    TimelineEventKind.KeyRemoved,
                    TimelineEventKind.SeenAtRest,
                }.Select(kind => FoundationChecks.Before(kind))
            )
            .Concat(
                new[]
                {
                    TimelineEventKind.GuardsRefitted,
                    TimelineEventKind.CutOutsProved,
                    TimelineEventKind.HandedBack,
                }.Select(FoundationChecks.After)
            );

    private static SafetyCase Chosen(int which) =>
        PublishedTimeline.Read(Ids[Math.Abs(which % Ids.Length)]).Case;

    private static IEnumerable<Verdict> Verdicts(SafetyCase safety) =>
        FoundationChecks.ByName.Values.Select(check => safety.Judge(check).Verdict);

    private static RecordedTime InOffset(RecordedTime time, int hours) =>
        RecordedTime
            .Parse(
                ((RecordedTime.Instant)time)
                    .Moment.Utc.ToOffset(TimeSpan.FromHours(hours))
                    .ToString("yyyy-MM-ddTHH:mm:sszzz", CultureInfo.InvariantCulture)
            )
            .OrThrow();
}
