using System.CommandLine;
using ServiceRules.Application.Library;
using ServiceRules.Cli.Setup;
using ServiceRules.Reporting.Reports;
using ServiceRules.Rules.Diagnostics;
using ServiceRules.Rules.Model;

namespace ServiceRules.Cli.Commands;

/// <summary><c>rules sheet UNIT -o OUT.pdf</c>: one kind of unit on one page for the wall.</summary>
internal static class RulesSheetCommand
{
    private static readonly Argument<string> Unit = new("UNIT")
    {
        Description = "The kind of unit: the identity of its limit sheet.",
    };

    public static Command Of(Session session)
    {
        var command = new Command(
            "sheet",
            "Prints one kind of unit on one A4 page for the wall: limits in both systems of units, order of work, what turning voids, cautions, basis."
        )
        {
            Unit,
            ReportPlaces.Output,
            RulesInForce.Option,
        };
        command.SetAction(parsed => Run(parsed, session));
        return command;
    }

    private static int Run(ParseResult parsed, Session session)
    {
        var loaded = RulesInForce.Sound(parsed);
        var sheet = Asked(parsed.GetRequiredValue(Unit), loaded);
        var output = parsed.GetRequiredValue(ReportPlaces.Output);
        ReportPlaces.Check([], output, null);
        ReportPlaces.CheckEarlier(output, WallSheet.TitleOf(sheet));
        var digest = SheetDigest.Of(sheet);
        var (pdf, pages) = WallSheet.Write(
            sheet,
            loaded.Site!.Name,
            digest,
            ReportTerms.Default,
            session.Clock.GetLocalNow()
        );
        using var draft = DraftFile.Of(output.FullName, pdf);
        draft.Keep();
        session.Tell($"{output}: {sheet.Title}, {(pages == 1 ? "one page" : $"{pages} pages")}");
        if (pages > 1)
        {
            session.Error.WriteLine(
                $"`{sheet.Id}` does not fit one page even in the smallest type; accepted: a shorter procedure, or fewer cautions"
            );
        }

        return ExitCode.Good;
    }

    private static LimitSheet Asked(string id, LoadedRules loaded)
    {
        if (loaded.Book.Sheet(id) is { } sheet)
        {
            return sheet;
        }

        var known = loaded.Book.Sheets.Select(one => one.Id.Text).Order(StringComparer.Ordinal).ToList();
        var near = NearestName.Of(id, known);
        throw new InputException(
            $"there is no limit sheet `{id}` in `{loaded.Folder}`; accepted: "
                + (
                    near is null
                        ? string.Join(", ", known.Select(name => $"`{name}`"))
                        : $"the identity of a sheet, perhaps `{near}`"
                )
        );
    }
}
