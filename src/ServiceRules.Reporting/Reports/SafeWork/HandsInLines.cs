using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Reporting.Layout;
using ServiceRules.Reporting.Reports.Words;

namespace ServiceRules.Reporting.Reports.SafeWork;

/// <summary>Of each person in one line: hands in when, and how much of it shown as protected, not shown, not proven.</summary>
internal static class HandsInLines
{
    /// <summary>People who have a line each on page one.</summary>
    private const int PeopleMax = 6;

    private const string NotAsked = "isolation not asked here, nothing at the bench to switch off";

    public static IEnumerable<Block> Of(SafeWorkView view)
    {
        foreach (var claim in view.Found.HeldClaims)
        {
            yield return new Paragraph([
                new Span("Claim: ", Palette.SmallBold),
                new Span(ClaimWords.Whole(view, claim), Palette.Small),
            ]);
        }
        var told =
            view.People.Length > PeopleMax ? [.. view.People.OrderBy(IsBare).Take(PeopleMax)] : view.People;
        foreach (var person in told)
        {
            yield return new Paragraph([
                new Span($"{person.Id.Text}: ", Palette.SmallBold),
                new Span(Line(view, person), Palette.Small),
            ]);
        }
        if (view.People.Length > told.Length)
        {
            yield return new Paragraph(
                view.More(view.People.Length - told.Length, " with hands in"),
                Palette.SmallQuiet
            );
        }
        if (view.People.IsEmpty)
        {
            yield return new Paragraph("The record names nobody with hands in.", Palette.Small);
        }
    }

    /// <summary>What page one tells of a person in part: all of it.</summary>
    public static IEnumerable<(string What, IntervalSet When)> Cut(ProtectedPerson person) =>
        new (string What, IntervalSet? When)[]
        {
            ("hands in", person.Work),
            ("not shown as protected", person.Unprotected),
            ("shown as protected but not proven", person.NotProven),
        }
            .Where(one => one.When is { } when && SafeWorkView.IsCut(when))
            .Select(one => (one.What, one.When!));

    // Where not everybody has room, who is not shown as protected stands first.
    private static int IsBare(ProtectedPerson person) =>
        person.Unprotected is { Intervals.IsEmpty: false } ? 0
        : person.NotProven is { Intervals.IsEmpty: false } ? 1
        : 2;

    /// <summary>What is told of one person.</summary>
    public static string Line(SafeWorkView view, ProtectedPerson person) =>
        $"{Told(view, person)}{Besides(view, person)}";

    /// <summary>How much of the work is shown as protected, in a few words for a heading.</summary>
    public static string Short(SafeWorkView view, ProtectedPerson person) =>
        string.Join("; ", MoreTold(view, person).Prepend(OfWork(view, person)));

    /// <summary>What steps and the bench log alone tell of hands; empty: nothing.</summary>
    public static string More(SafeWorkView view, ProtectedPerson person) =>
        string.Join("; ", MoreTold(view, person));

    private static string Besides(SafeWorkView view, ProtectedPerson person) =>
        string.Concat(MoreTold(view, person).Select(told => $" {ReportWords.Sentence(told)}."));

    private static IEnumerable<string> MoreTold(SafeWorkView view, ProtectedPerson person)
    {
        if (!person.Steps.IsEmpty)
        {
            yield return HandStep.Told(view, person.Steps);
        }
        if (!person.Logged.IsEmpty)
        {
            yield return LoggedHands.Told(view, person.Logged);
        }
    }

    private static string OfWork(SafeWorkView view, ProtectedPerson person)
    {
        if (person.Unprotected is not { } bare)
        {
            return "protection cannot be told";
        }
        if (!bare.Intervals.IsEmpty && !view.Frame.HasIsolation)
        {
            return $"{NotAsked}, not shown as protected {WorkTime.Of(bare, view)}, {view.ToldBriefly(bare)}";
        }
        var unprotected = bare.Intervals.IsEmpty
            ? "unprotected 0 min"
            : $"unprotected {WorkTime.Of(bare, view)}, {view.ToldBriefly(bare)}";
        return person.NotProven is { Intervals.IsEmpty: false } doubtful
                ? $"{unprotected}, not proven {WorkTime.Of(doubtful, view)}"
            : bare.Intervals.IsEmpty && person.LeftOpen is { } open
                ? $"{unprotected} as entered, {Word(open)} that this is all ({open.Letter})"
            : unprotected;
    }

    private static string Told(SafeWorkView view, ProtectedPerson person)
    {
        if (person.Work.Intervals.IsEmpty)
        {
            return person.LeftOpen is { Letter: var letter }
                && person.Steps.All(step => step.Letter != letter)
                    ? $"the record does not show when hands were in ({letter})."
                : person.Steps.IsEmpty ? "the record shows no hands-on work."
                : "no hands-on work shown, and a hand at a unit.";
        }
        var work = Work(view, person.Work);
        if (view.Found.Exemption is { } exemption)
        {
            return $"{work}; no lockout: {ClaimWords.Short(exemption)}.";
        }
        if (person.Unprotected is not { } bare)
        {
            return $"{work}; protection cannot be told: no written procedure is registered for this machine.";
        }
        var parts = new[]
        {
            Part(view, "not shown as protected", bare),
            Part(view, "shown as protected but not proven", person.NotProven),
        }
            .OfType<string>()
            .ToList();
        return parts.Count > 0 && !view.Frame.HasIsolation
                ? $"{work}; {NotAsked}; of it {string.Join("; ", parts)}."
            : parts.Count > 0 ? $"{work}; of it {string.Join("; ", parts)}."
            : person.LeftOpen is { } open
                ? $"{work}; {Word(open)} that all of it was inside the protected interval ({open.Letter})."
            // Hands that only the bench log tells come on top: then no more is said than of these minutes.
            : $"{work}, {(person.Logged.IsEmpty && person.Steps.IsEmpty ? "all of it" : "these minutes")} protected from {Sources(view)}{(IsGoingOn(person) ? " so far" : "")}.";
    }

    private static string Work(SafeWorkView view, IntervalSet work) =>
        work.Intervals is [{ Until: null, From: var from }] && view.TimeAt(from) is { } since
            ? $"hands in since {view.When(since)} ({view.NumberAt(from)}), no end shown, {WorkTime.Of(work, view)}"
            : $"hands in {Timed(view, work)}";

    private static string Timed(SafeWorkView view, IntervalSet when) =>
        SafeWorkView.IsCut(when)
            ? $"{WorkTime.Of(when, view)} in {ReportWords.Counted(when.Intervals.Length, "stretch", "stretches")}: {view.ToldBriefly(when)}"
            : $"{view.ToldBriefly(when)}, {WorkTime.Of(when, view)}";

    private static string? Part(SafeWorkView view, string word, IntervalSet? when) =>
        when is { Intervals.IsEmpty: false } ? $"{word}: {Timed(view, when)}" : null;

    private static bool IsGoingOn(ProtectedPerson person) =>
        person.Work.Intervals.Any(one => one.Until is null);

    private static string Word(MarkedFinding open) =>
        open.Told.Finding.Verdict == Verdict.NotMet ? "not shown" : "not proven";

    private static string Sources(SafeWorkView view) =>
        view.Effective is { Length: > 2 and var count } ? $"all {count} energy sources"
        : view.Effective.Length == 2 ? "both energy sources"
        : view.Effective.Length == 1 ? "the one energy source"
        : "what the procedure names";
}
