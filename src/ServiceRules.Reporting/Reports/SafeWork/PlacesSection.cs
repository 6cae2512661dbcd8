using System.Collections.Immutable;
using System.Globalization;
using ServiceRules.Application.SafeWork;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Reporting.Layout;

namespace ServiceRules.Reporting.Reports.SafeWork;

/// <summary>The jobs by place: each machine or bench, and how its jobs stand.</summary>
internal static class PlacesSection
{
    private static readonly ImmutableArray<SafeWorkStanding> Standings =
    [
        .. Enum.GetValues<SafeWorkStanding>(),
    ];

    public static IEnumerable<Block> Of(PeriodView view)
    {
        yield return Paragraph.Heading(2, "By place", Palette.Heading);
        yield return new Table(
            [ColumnWidth.Share(1.4), ColumnWidth.Fixed(40), .. Standings.Select(_ => ColumnWidth.Share(1))],
            new TableRow([
                Head("machine or bench"),
                Head("jobs"),
                .. Standings.Select(standing => Head(StandingPrint.Of(standing, RecordState.SignedOff).Word)),
            ]),
            [
                .. view
                    .Jobs.GroupBy(job => (job.Job.Context.Site, Machine: job.Job.Record.Machine.Id.Text))
                    .OrderBy(place => place.Key.Site, StringComparer.Ordinal)
                    .ThenBy(place => place.Key.Machine, StringComparer.Ordinal)
                    .Select(place =>
                        RowOf(
                            view.IsOfSeveralSites
                                ? $"{place.Key.Site}, {place.Key.Machine}"
                                : place.Key.Machine,
                            [.. place]
                        )
                    ),
            ],
            new TableStyle(3, 1, Palette.HairLine) { HeaderLine = Palette.Outline }
        );
    }

    private static TableRow RowOf(string machine, ImmutableArray<PeriodJob> jobs)
    {
        var areas = jobs.Select(job => job.Job.Record.Machine.Area)
            .OfType<string>()
            .Distinct(StringComparer.Ordinal)
            .Order(StringComparer.Ordinal);
        return new TableRow([
            new Paragraph([
                new Span($"{machine} ", Palette.TinyBold),
                new Span(string.Join(", ", areas), Palette.TinyQuiet),
            ]),
            Number(jobs.Length),
            .. Standings.Select(standing => Number(jobs.Count(job => job.Standing == standing))),
        ]);
    }

    private static Paragraph Number(int count) =>
        new(count.ToString(CultureInfo.InvariantCulture), count == 0 ? Palette.TinyQuiet : Palette.Tiny);

    private static Paragraph Head(string text) => new(text, Palette.TinyQuiet);
}
