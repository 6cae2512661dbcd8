using System.Collections.Immutable;
using ServiceRules.Application.Assessing;
using ServiceRules.Application.Demo;
using ServiceRules.Application.Filed;
using ServiceRules.Application.SafeWork;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;
using ServiceRules.Formats.Records;
using ServiceRules.Reporting.Verifying;
using ServiceRules.TestKit;

namespace ServiceRules.Reporting.Tests.Reports.SafeWork;

/// <summary>Records whose make-safe timeline is shipped with the rules, and a season of them.</summary>
internal static class SafeWorkSamples
{
    /// <summary>Two people on one ride-on machine, each under their own lock.</summary>
    public static ServiceRecord ByTwo => Read("height-check-by-two");

    /// <summary>The same, and the second never hung a lock.</summary>
    public static ServiceRecord SecondWithoutLock => Without(ByTwo, one => one.Lock?.Text == "L-51");

    /// <summary>The same, put down on paper so far: nobody has hands in yet.</summary>
    public static ServiceRecord MidWay =>
        ByTwo with
        {
            Timeline =
            [
                .. ByTwo.Timeline.Where(one => string.CompareOrdinal(one.At.Text, "2026-04-13T08:10") < 0),
            ],
            SignOff = null,
            FollowUp = null,
        };

    /// <summary>The same, hands in and nothing missed so far.</summary>
    public static ServiceRecord AtWork =>
        ByTwo with
        {
            Timeline =
            [
                .. ByTwo.Timeline.Where(one => string.CompareOrdinal(one.At.Text, "2026-04-13T08:20") < 0),
            ],
            SignOff = null,
            FollowUp = null,
        };

    /// <summary>The same, the work done and the locks off, not handed back yet.</summary>
    public static ServiceRecord Released =>
        ByTwo with
        {
            Timeline =
            [
                .. ByTwo.Timeline.Where(one => string.CompareOrdinal(one.At.Text, "2026-04-13T08:33:20") < 0),
            ],
            SignOff = null,
            FollowUp = null,
        };

    /// <summary>The same, and the first of them takes their lock off in the middle of the work.</summary>
    public static ServiceRecord LockOffAtWork =>
        Each(
            ByTwo,
            one =>
                one is { Kind: TimelineEventKind.LockRemoved, Lock.Text: "L-11" }
                    ? one with
                    {
                        At = Time("2026-04-13T08:18:00+01:00"),
                    }
                    : one
        );

    /// <summary>The same, and every entry came in only in the afternoon, not labelled as late.</summary>
    public static ServiceRecord BackFilled =>
        Each(ByTwo, one => one with { ReceivedAt = Time("2026-04-13T16:00:00+01:00") });

    /// <summary>The same, and the record does not say when hands of the second went in.</summary>
    public static ServiceRecord WithoutAStart =>
        Without(ByTwo, one => one is { Kind: TimelineEventKind.WorkStarted, Actor.Text: "tech-05" });

    /// <summary>The same on a machine in use, nothing locked, by a claim of minor servicing.</summary>
    public static ServiceRecord ByClaim =>
        ByTwo with
        {
            Setting = WorkSetting.InUse,
            HandsInBladeZone = false,
            People = [.. ByTwo.People, new(new("lead-01"), JobRole.Leads)],
            Units = [.. ByTwo.Units.Select(unit => unit with { Entries = [] })],
            Timeline =
            [
                new()
                {
                    Kind = TimelineEventKind.ExemptionClaimed,
                    At = Time("2026-04-13T07:57:00+01:00"),
                    Actor = new("tech-01"),
                    Claim = new(
                        ExemptionKind.MinorServicing,
                        Routine: true,
                        Repetitive: true,
                        Integral: true,
                        DecidedBy: new("lead-01")
                    ),
                },
                new()
                {
                    Kind = TimelineEventKind.AlternativeMeasuresRecorded,
                    At = Time("2026-04-13T07:58:00+01:00"),
                    Actor = new("tech-01"),
                    Measures = [ProtectiveMeasure.EngineOff, ProtectiveMeasure.KeyRemovedAndKept],
                },
                .. ByTwo.Timeline.Where(one => one.Lock is null),
            ],
        };

    /// <summary>The same with a brush on a long handle, and the machine running for a part of the work.</summary>
    public static ServiceRecord ByClaimRunning =>
        ByClaim with
        {
            Timeline =
            [
                .. ByClaim
                    .Timeline.Where(one => one.Kind != TimelineEventKind.IsolatorOperated)
                    .Select(one =>
                        one.Measures.IsDefaultOrEmpty
                            ? one
                            : one with
                            {
                                Measures = [ProtectiveMeasure.LongHandledBrush],
                            }
                    ),
                new()
                {
                    Kind = TimelineEventKind.MachineStarted,
                    At = Time("2026-04-13T08:20:00+01:00"),
                    Actor = new("tech-01"),
                },
            ],
        };

    public static ServiceRecord Read(string name)
    {
        var path = ReferenceFiles.InRepository("rules", "base", "fixtures", $"{name}.record.json");
        return RecordFormat.Current.Read(File.ReadAllBytes(path)).TryGet(out var record, out var problems)
            ? record
            : throw new InvalidOperationException(problems.ToString());
    }

    public static RecordedTime Time(string text) =>
        RecordedTime.Parse(text).TryGet(out var time, out var failure)
            ? time
            : throw new InvalidOperationException(failure.ToString());

    public static ServiceRecord Each(ServiceRecord record, Func<TimelineEvent, TimelineEvent> change) =>
        record with
        {
            Timeline = [.. record.Timeline.Select(change)],
        };

    public static ServiceRecord Without(ServiceRecord record, Predicate<TimelineEvent> left) =>
        record with
        {
            Timeline = [.. record.Timeline.Where(one => !left(one))],
        };

    /// <summary>Some records of a season of the demo site, from its first day on.</summary>
    public static ImmutableArray<ServiceRecord> Season(int jobs) =>
        [
            .. DemoScenario
                .Make(DemoScenario.UsualSeed, SampleJobs.DemoSite)
                .Select(job => job.Record)
                .OrderBy(record => record.Date)
                .ThenBy(record => record.Id.Text, StringComparer.Ordinal)
                .Take(jobs),
        ];

    public static SafeWorkPeriod Period(Scratch scratch, params IReadOnlyCollection<ServiceRecord> records)
    {
        foreach (var record in records)
        {
            scratch.Write($"{record.Id.Text}.json", RecordFormat.Current.Write(record));
        }
        var outcome = new ReadPeriod(
            new RecordsInFiles(
                new RecordGathering(new PdfReportReader([]), SampleJobs.DemoBook, SampleJobs.DemoSite.Name),
                [scratch.Folder]
            ),
            SampleJobs.DemoBook,
            SampleJobs.DemoSite,
            new Judge()
        ).Read(null, null, out _);
        return outcome.TryGet(out var period, out var fault)
            ? period
            : throw new InvalidOperationException(fault);
    }
}
