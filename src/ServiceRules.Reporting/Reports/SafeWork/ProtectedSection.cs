using System.Collections.Immutable;
using ServiceRules.Domain;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;
using ServiceRules.Reporting.Layout;
using ServiceRules.Rules.Evaluation.Duties;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Reporting.Reports.SafeWork;

/// <summary>Who was protected from what, when, and on what evidence: a table for each person, a row for each source.</summary>
internal static class ProtectedSection
{
    private static readonly ImmutableArray<ColumnWidth> Widths =
    [
        ColumnWidth.Share(1.1),
        ColumnWidth.Share(1),
        ColumnWidth.Share(1.3),
        ColumnWidth.Share(1),
        ColumnWidth.Share(1),
        ColumnWidth.Share(1.1),
    ];

    /// <summary>Its heading, by which what page one leaves out is found.</summary>
    public const string Title = "Who was protected from what, and when";

    public static IEnumerable<Block> Of(SafeWorkView view)
    {
        yield return Paragraph.Heading(2, Title, Palette.Heading);
        if (view.Reading.Protection is null)
        {
            yield return new Paragraph(
                "No written procedure is registered for this machine and place of work, so nothing says from which energy "
                    + "sources anybody had to be protected.",
                Palette.Small
            );
            yield break;
        }
        if (view.Found.Exemption is { } exemption)
        {
            yield return new Paragraph([
                new Span("No lockout is asked of this job: ", Palette.SmallBold),
                new Span(
                    $"{view.Job.Say(exemption.Told.Finding.Statement)} What it shows of each source all the same:",
                    Palette.Small
                ),
            ]);
        }
        foreach (var person in view.People)
        {
            yield return Paragraph.Heading(3, Head(view, person), Palette.SubHeading);
            foreach (var (what, when) in HandsInLines.Cut(person))
            {
                yield return new Paragraph([
                    new Span($"{what}: ", Palette.TinyBold),
                    new Span($"{view.Told(when, "")}.", Palette.Tiny),
                ]);
            }
            yield return new Table(
                Widths,
                new TableRow([
                    .. new[]
                    {
                        "energy source",
                        "off, isolated",
                        "held off, by whom",
                        "stored energy released",
                        "proven dead",
                        "protected from it",
                    }.Select(text => new Paragraph(text, Palette.TinyQuiet)),
                ]),
                [.. person.Sources.Select(source => RowOf(view, person, source))],
                new TableStyle(3, 1.2, Palette.HairLine) { HeaderLine = Palette.Outline }
            );
        }
        yield return new Paragraph(
            "In brackets: the events that begin and end it, by their numbers in the list below. Protected from a source: proven "
                + "dead, the machine not running, and where it can be switched on again under this person's own control.",
            Palette.TinyQuiet
        );
    }

    private static string Head(SafeWorkView view, ProtectedPerson person)
    {
        if (person.Work.Intervals.IsEmpty)
        {
            return HandsInLines.More(view, person) is { Length: > 0 } more
                ? $"{person.Id.Text}: a hand at a unit: {more}"
                : $"{person.Id.Text}: no hands-on work shown";
        }
        if (view.Found.Exemption is not null)
        {
            return $"{person.Id.Text}: hands in {WorkTime.Of(person.Work, view)}, without lockout";
        }
        return $"{person.Id.Text}: hands in {WorkTime.Of(person.Work, view)}, {HandsInLines.Short(view, person)}";
    }

    private static TableRow RowOf(SafeWorkView view, ProtectedPerson person, ProtectedSource source)
    {
        var reading = source.Reading;
        return new TableRow([
            new Paragraph([
                new Span(reading.Source.Title, Palette.TinyBold),
                new Span(Came(view, source.Effective), Palette.TinyQuiet),
            ]),
            Cell(reading.HasIsolator ? view.Told(reading.Isolated, "not shown") : "nothing to switch off"),
            Cell(reading.HasIsolator ? Held(view, person, reading) : "nothing to hold"),
            Cell(reading.Source.Stored ? view.Told(reading.Released, "not shown") : "none stored"),
            Cell(Proven(view, reading)),
            new Paragraph(Protected(view, source), Palette.TinyBold),
        ]);
    }

    private static string Came(SafeWorkView view, EffectiveSource source) =>
        source.AddedBy is { } by ? $" came at {view.When(by.Event.At)} ({view.NumberAt(source.From)})"
        : !source.InProcedure ? " not in the procedure"
        : "";

    private static string Held(SafeWorkView view, ProtectedPerson person, SourceReading reading)
    {
        var there = view.Reading.Devices.Where(device => device.IsOn(reading.Source.Id)).ToList();
        var box = view.Reading.Devices.Where(device => device.IsOnGroupBox && device.Person == person.Id);
        var kept = reading.Source.Lockable
            ? []
            : view
                .People.Select(one => one.Id)
                .Concat(view.Events.Select(one => one.Event.Actor))
                .Distinct()
                .SelectMany(holder => Kept(view, holder, reading.Source, there));
        var told = there
            .Select(device => Told(view, device))
            .Concat(kept)
            .Concat(box.Select(device => $"group box {Told(view, device)}"))
            .ToList();
        return told.Count == 0 ? "not shown" : string.Join("; ", told);
    }

    // Who has a lock or tag on it is told by that; each other control is somebody's own, and named with them.
    private static IEnumerable<string> Kept(
        SafeWorkView view,
        Id<Participant> holder,
        EnergySource source,
        List<DeviceInterval> there
    ) =>
        there.Exists(device => device.Person == holder)
            ? []
            : view
                .Reading.Protection!.ControlOf(holder, source)
                .Intervals.Select(one => $"plug or key kept by {holder.Text} {view.Told(one)}");

    // No more than the duty of proof accepts, where it is held open.
    private static string Protected(SafeWorkView view, ProtectedSource source)
    {
        var rest = ProtectedPeople.IsProofOpen(view)
            ? source.Protected.Without(source.Reading.Verified)
            : IntervalSet.Never;
        var told = view.Told(source.Protected.Without(rest), "not shown");
        return rest.Intervals.IsEmpty ? told : $"{told}; not proven {view.Told(rest, "")}";
    }

    private static string Proven(SafeWorkView view, SourceReading reading)
    {
        var told = view.Told(reading.Verified, "not shown");
        var besides = reading.Proven.Without(reading.Verified);
        return besides.Intervals.IsEmpty
            ? told
            : $"{told}; {(reading.Source.Lockable ? "entered, and not by anybody authorised" : "no proof that counts; plug or key kept")} {view.Told(besides, "")}";
    }

    private static string Told(SafeWorkView view, DeviceInterval device) =>
        $"{(device.IsTag ? "tag " : "")}{device.Device.Text} by {device.Person.Text} {view.Told(device.Interval)}"
        + (device.HoldsOff ? "" : ", isolator left on");

    private static Paragraph Cell(string text) => new(text, Palette.Tiny);
}
