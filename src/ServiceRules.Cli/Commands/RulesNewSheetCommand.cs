using System.CommandLine;
using System.Globalization;
using ServiceRules.Application.Authoring;
using ServiceRules.Application.Library;
using ServiceRules.Cli.Printing;
using ServiceRules.Cli.Setup;
using ServiceRules.Domain.Records;
using ServiceRules.Rules.Model;

namespace ServiceRules.Cli.Commands;

/// <summary><c>rules new sheet ID</c>: the limit sheet of a kind of unit.</summary>
internal static class RulesNewSheetCommand
{
    private static readonly Argument<string> Identity = new("ID")
    {
        Description = "What the sheet is called: reel diameter, blades and width, such as reel-250-8-910.",
    };

    private static readonly Option<string?> Like = One(
        "--like",
        "The sheet of this folder that is most like it.",
        "SHEET"
    );

    private static readonly Option<string?> Title = One(
        "--title",
        "Its title. Default: from its sizes.",
        "TEXT"
    );

    private static readonly Option<string?> Diameter = One("--diameter", "Nominal reel diameter.", "LENGTH");

    private static readonly Option<string?> Blades = One("--blades", "Number of blades.", "N");

    private static readonly Option<string?> Width = One(
        "--width",
        "Width of the bedknife between the blade ends.",
        "LENGTH"
    );

    private static readonly Option<string?> BasisOption = One(
        "--basis",
        "What these figures rest on. Default: manual.",
        "KIND"
    );

    private static readonly Option<string?> Source = One(
        "--source",
        "Which manual, or which other source.",
        "TEXT"
    );

    private static readonly Option<string?> Machine = One(
        "--machine",
        "The machine that carries such units, for what it still needs.",
        "ID"
    );

    private static readonly Option<string[]> Limit = new("--limit")
    {
        Description =
            "A figure of the manual, in one system or as printed in both: clearance upper=0.003 in (0.08 mm).",
        HelpName = "QUANTITY MEMBER=LENGTH",
    };

    private static readonly Option<string[]> Without = new("--without")
    {
        Description =
            "A quantity that this kind of unit has not, and why: groomer-height=carries no groomer. Rules on it never reach it.",
        HelpName = "QUANTITY[=WHY]",
    };

    public static Command Of(Session session)
    {
        var command = new Command(
            "sheet",
            "Makes the limit sheet of a kind of unit, from the sheet most like it and the figures of its own manual, and tells what else it needs: 0 it is in the folder, 2 refused, and nothing is written."
        )
        {
            Identity,
            Like,
            Title,
            Diameter,
            Blades,
            Width,
            BasisOption,
            Source,
            Limit,
            Without,
            Machine,
            RulesInForce.Option,
        };
        command.Aliases.Add("unit-kind");
        command.SetAction(parsed => Run(parsed, session));
        return command;
    }

    private static int Run(ParseResult parsed, Session session)
    {
        var loaded = RulesInForce.Sound(parsed);
        var demand = DemandOf(parsed, loaded, new Asked(parsed, session));
        var outcome = NewSheet.Run(loaded, demand);
        var today = DateOnly.FromDateTime(session.Clock.GetUtcNow().UtcDateTime);
        IEnumerable<string> next =
            outcome is AuthoringOutcome.Written
                ? UnitKindSteps.Of(RuleFolder.Load(loaded.Folder), demand.Id, parsed.GetValue(Machine), today)
                : [];
        return AuthoringPrint.Write(session, loaded.Folder, outcome, next);
    }

    private static SheetDemand DemandOf(ParseResult parsed, LoadedRules loaded, Asked asked)
    {
        var id = GivenPerson.Identified("ID", parsed.GetRequiredValue(Identity));
        var sheets = string.Join(
            ", ",
            loaded.Library.Sheets.Select(one => one.Value.Id.Text).Order(StringComparer.Ordinal)
        );
        var like = asked.Needed(
            Like,
            $"the sheet that is most like it ({sheets})",
            loaded.Library.Sheets.Select(one => one.Value.Id.Text).FirstOrDefault() ?? "reel-125-9-510",
            text => GivenPerson.Identified(Like.Name, text)
        );
        var diameter = asked.Needed(
            Diameter,
            "nominal reel diameter",
            "250 mm",
            text => GivenFigure.Print(Diameter.Name, text)
        );
        var blades = asked.Needed(Blades, "number of blades", "8", Count);
        var width = asked.Needed(
            Width,
            "width of the bedknife between the blade ends",
            "910 mm",
            text => GivenFigure.Print(Width.Name, text)
        );
        var kind = parsed.GetValue(BasisOption) is { } given
            ? GivenWord.Of<BasisKind>(BasisOption.Name, given)
            : BasisKind.Manual;
        var source = kind is BasisKind.Manual or BasisKind.Published
            ? asked.Needed(
                Source,
                "which manual these figures are from",
                "operator's manual, page 31",
                text => text
            )
            : parsed.GetValue(Source);
        var without = asked.All(Without, LeftOut).ToList();
        return new()
        {
            Id = id,
            Title = parsed.GetValue(Title),
            Like = like,
            ReelDiameter = diameter,
            Blades = blades,
            Width = width,
            Basis = GivenFigure.Basis(kind, source, BasisOption.Name),
            Limits = [.. asked.All(Limit, text => GivenFigure.Limit(Limit.Name, text))],
            Without = [.. without.Select(one => one.Quantity)],
            Because = [.. without.Where(one => one.Why.Length > 0)],
        };
    }

    private static LeftOutQuantity LeftOut(string text)
    {
        var at = text.IndexOf('=', StringComparison.Ordinal);
        return new(
            GivenWord.Of<MeasuredQuantity>(Without.Name, at < 0 ? text : text[..at]),
            at < 0 ? "" : text[(at + 1)..].Trim()
        );
    }

    private static int Count(string text) =>
        int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var count)
        && count is >= 2 and <= 30
            ? count
            : throw new InputException(
                $"{Blades.Name}: `{text}` is no number of blades; accepted: a whole number from 2 to 30"
            );

    private static Option<string?> One(string name, string description, string help) =>
        new(name) { Description = description, HelpName = help };
}
