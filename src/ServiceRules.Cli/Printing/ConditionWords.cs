using System.Globalization;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Engine.Applying;
using ServiceRules.Reporting.Reports.Words;
using ServiceRules.Rules.Model;

namespace ServiceRules.Cli.Printing;

/// <summary>One part of when a rule applies: what is asked, and what the record has.</summary>
/// <param name="Asked">What is asked.</param>
/// <param name="Here">What the record has.</param>
internal sealed record ConditionWords(string Asked, string Here)
{
    public static ConditionWords OfJob(
        AskedPart part,
        Applicability when,
        SubjectReach reach,
        ServiceRecord record
    ) =>
        part switch
        {
            AskedPart.From => new($"in force from {Day(when.From)}", $"the job is of {Day(record.Date)}"),
            AskedPart.Until => new($"in force until {Day(when.Until)}", $"the job is of {Day(record.Date)}"),
            AskedPart.Place => new(
                $"work {ReportWords.Of(when.Place!.Value)}",
                $"here {ReportWords.Of(record.Place)}"
            ),
            AskedPart.Isolation => new(
                when.Isolation!.Value ? "there is something to switch off" : "there is nothing to switch off",
                reach.OfJob.Any(answer => answer.Part == part && answer.Holds) == when.Isolation
                    ? "here there is"
                    : "here there is nothing"
            ),
            AskedPart.Areas => new(
                $"area {Or(when.Areas)}",
                record.Machine.Area is { } area ? $"here {area}" : "no area is named here"
            ),
            AskedPart.Tasks => new(
                $"task {Or(when.Tasks.Select(ReportWords.Of))}{OrRead(when)}",
                Has("here", reach.Tasks.Select(ReportWords.Of), "no task is named here")
                    + StillRead(when, reach)
            ),
            _ => throw new ArgumentOutOfRangeException(nameof(part), part, null),
        };

    public static ConditionWords OfUnit(AskedPart part, Applicability when, UnitTraits unit) =>
        part switch
        {
            AskedPart.Sheets => new($"limit sheet {Or(when.Sheets)}", $"here {unit.Sheet.Id}"),
            AskedPart.Bedknife => new(Of(when.Bedknife!.Value), $"here a {Of(unit.Sheet.Bedknife)}"),
            AskedPart.Attachments => new(
                $"fitted: {And(when.Attachments.Select(ReportWords.Of))}",
                Has("fitted here:", unit.Attachments.Select(ReportWords.Of), "nothing is fitted here")
            ),
            AskedPart.School => new(
                $"set to {Of(when.School!.Value)}",
                unit.School is { } school
                    ? $"set to {Of(school)} here"
                    : "no setting order says how this unit is set"
            ),
            AskedPart.AnyTurned => new(
                $"turned: {Or(when.AnyTurned.Select(ReportWords.Of))}",
                Has("turned here:", unit.Turned.Select(ReportWords.Of), "nothing was turned here")
            ),
            AskedPart.AnyRead => new(
                $"read: {Or(when.AnyRead.Select(ReportWords.Of))}",
                Has("read here:", unit.Read.Select(ReportWords.Of), "nothing was read here")
            ),
            AskedPart.AnyReadAlong => new(
                $"read at two places or more: {Or(when.AnyReadAlong.Select(ReportWords.Of))}",
                Has(
                    "read so here:",
                    unit.ReadAlong.Select(ReportWords.Of),
                    "nothing was read at two places here"
                )
            ),
            AskedPart.Ground => new(
                when.Ground!.Value ? "metal was removed" : "no metal was removed",
                unit.IsGround ? "metal was removed here" : "no metal was removed here"
            ),
            AskedPart.SheetStates => new(
                $"the limit sheet states {ReportWords.Of(when.SheetStates!.Value)}",
                unit.Sheet.Of(when.SheetStates.Value) is null
                    ? $"{unit.Sheet.Id} does not"
                    : $"{unit.Sheet.Id} does"
            ),
            _ => throw new ArgumentOutOfRangeException(nameof(part), part, null),
        };

    public static string Of(ContactSchool school) =>
        school == ContactSchool.AirGap ? "an air gap" : "light contact";

    private static string OrRead(Applicability when) =>
        when.OrRead.IsEmpty
            ? ""
            : $", or at any task {Or(when.OrRead.Select(ReportWords.Of))} as read and still holding";

    private static string StillRead(Applicability when, SubjectReach reach) =>
        when.OrRead.IsEmpty || reach.IsAskedByTasks
            ? ""
            : ", "
                + Has(
                    "still holding:",
                    when.OrRead.Where(quantity =>
                            reach.Units.Any(unit => unit.Traits.StillRead.Contains(quantity))
                        )
                        .Select(ReportWords.Of),
                    "nothing of that was read here and still holds"
                );

    private static string Of(BedknifeMounting bedknife) =>
        bedknife == BedknifeMounting.Moving ? "moving bedknife" : "fixed bedknife";

    private static string Has(string lead, IEnumerable<string> items, string none) =>
        items.ToList() is { Count: > 0 } some ? $"{lead} {And(some)}" : none;

    private static string And(IEnumerable<string> items) => ReportWords.Listed([.. items]);

    private static string Or(IEnumerable<string> items)
    {
        List<string> all = [.. items];
        return all.Count < 2
            ? string.Concat(all)
            : $"{string.Join(", ", all.Take(all.Count - 1))} or {all[^1]}";
    }

    private static string Day(DateOnly? day) =>
        day?.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture) ?? "";
}
