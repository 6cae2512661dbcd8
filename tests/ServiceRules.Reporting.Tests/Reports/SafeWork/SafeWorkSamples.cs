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

    public static ServiceRecord Read(string name)
    {
        var path = ReferenceFiles.InRepository("rules", "base", "fixtures", $"{name}.record.json");
        return RecordFormat.Current.Read(File.ReadAllBytes(path)).TryGet(out var record, out var problems)
            ? record
            : throw new InvalidOperationException(problems.ToString());
    }

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
            new RecordGathering(new PdfReportReader([]), SampleJobs.DemoBook, SampleJobs.DemoSite.Name),
            SampleJobs.DemoBook,
            SampleJobs.DemoSite,
            new Judge()
        ).Read([scratch.Folder], null, null, out _);
        return outcome.TryGet(out var period, out var fault)
            ? period
            : throw new InvalidOperationException(fault);
    }
}
