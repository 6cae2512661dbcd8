using System.CommandLine;
using System.Text;
using ServiceRules.Application.History;
using ServiceRules.Cli.Printing;
using ServiceRules.Cli.Setup;
using ServiceRules.Domain;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;

namespace ServiceRules.Cli.Commands;

/// <summary><c>history FILE|DIR...</c>: what many records tell together, for the shop lead.</summary>
internal static class HistoryCommand
{
    private const string Json = "json";

    private static readonly Option<string?> Unit = new("--unit")
    {
        Description = "One unit only; gauges and the shop as a whole are left out.",
        HelpName = "UNIT",
    };

    private static readonly Option<string?> GrindEvery = new("--grind-every")
    {
        Description = "Hours from grind to grind in this shop, such as \"225 h\". Default: not stated.",
        HelpName = "HOURS",
    };

    public static Command Of(Session session)
    {
        var format = new Option<string>("--format")
        {
            Description = "text, or json: one document of format unit-history/1.",
            DefaultValueFactory = _ => "text",
        };
        format.AcceptOnlyFromAmong("text", Json);
        var command = new Command(
            "history",
            "Tells wear, sharpness, adjusters and gauges over many records: 0 nothing is due now, 1 something is, 2 unreadable input."
        )
        {
            RecordPaths.Argument,
            Unit,
            GrindEvery,
            format,
            RulesInForce.Option,
        };
        command.SetAction(parsed => Run(parsed, session, parsed.GetValue(format) == Json));
        return command;
    }

    private static int Run(ParseResult parsed, Session session, bool asJson)
    {
        var grindEvery = Interval(parsed);
        var unit = parsed.GetValue(Unit) is { } text ? new Id<UnitWork>(text) : (Id<UnitWork>?)null;
        var loaded = RulesInForce.Sound(parsed);
        var told = new TellHistory(RecordPaths.Reading(loaded), loaded.Book, loaded.Site!).Tell(
            parsed.GetRequiredValue(RecordPaths.Argument),
            unit,
            grindEvery,
            out var files
        );
        RecordPaths.Tell(session.Error, files.Problems);
        if (told is null)
        {
            session.Error.WriteLine("there is no readable record among these files");
            return ExitCode.Unusable;
        }

        if (told.Units.IsEmpty)
        {
            session.Error.WriteLine(
                $"no record names the unit `{unit}`; accepted: one of {string.Join(", ", told.Known)}"
            );
            return ExitCode.Unusable;
        }

        if (asJson)
        {
            session.Output.Write(
                Encoding.UTF8.GetString(HistoryFormat.Current.Write(HistoryWriting.Of(told)))
            );
        }
        else
        {
            new HistoryPrint(session.Screen, told, unit is null).Print();
        }

        return !files.Problems.IsEmpty ? ExitCode.Unusable
            : told.Actions.Any(action => action.Due is null) ? ExitCode.NotGood
            : ExitCode.Good;
    }

    private static RunningTime? Interval(ParseResult parsed)
    {
        if (parsed.GetValue(GrindEvery) is not { } text)
        {
            return null;
        }

        return !RunningTime.Parse(text).TryGet(out var hours, out var failure)
                ? throw new InputException($"{GrindEvery.Name}: {failure}")
            : hours > RunningTime.Zero ? hours
            : throw new InputException(
                $"{GrindEvery.Name}: `{text}` is no interval; accepted: more than 0 h"
            );
    }
}
