using System.CommandLine;
using ServiceRules.Application.Assessing;
using ServiceRules.Application.Recall;
using ServiceRules.Cli.Printing;
using ServiceRules.Cli.Setup;
using ServiceRules.Domain;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;

namespace ServiceRules.Cli.Commands;

/// <summary><c>recall INSTRUMENT</c>: a gauge was found out; which past verdicts would change.</summary>
internal static class RecallCommand
{
    private const string Json = "json";

    private static readonly Argument<string> Instrument = new("INSTRUMENT")
    {
        Description = "The gauge that was found out, as the records name it.",
    };

    private static readonly Option<string?> Error = new("--error")
    {
        Description =
            "What it read away from the truth, high is plus: \"0.06 mm\". For feelers: marked minus true thickness.",
        HelpName = "LENGTH",
        Required = true,
    };

    private static readonly Option<string?> Uncertainty = new("--uncertainty")
    {
        Description = "Expanded uncertainty of that error, k = 2.",
        HelpName = "LENGTH",
    };

    private static readonly Option<string?> Feeler = new("--feeler")
    {
        Description = "The one leaf of the set that is wrong, by its marked thickness. Default: all.",
        HelpName = "LENGTH",
    };

    private static readonly Option<string?> From = new("--from")
    {
        Description =
            "The day from which the error is known to have been there in full. Default: not known; zero checks in the records speak.",
        HelpName = "DATE",
    };

    private static readonly Option<string?> Until = new("--until")
    {
        Description = "The last day on which it was there.",
        HelpName = "DATE",
    };

    private static readonly Option<bool> All = new("--all")
    {
        Description = "Show also the verdicts that stand.",
    };

    public static Command Of(Session session)
    {
        var format = new Option<string>("--format")
        {
            Description = "text, or json: one document of format gauge-recall/1.",
            DefaultValueFactory = _ => "text",
        };
        format.AcceptOnlyFromAmong("text", Json);
        var command = new Command(
            "recall",
            "Judges again what a gauge was used for, once it is found out: 0 every release stands, 1 at least one does not or cannot be told, 2 unreadable input."
        )
        {
            Instrument,
            RecordPaths.Argument,
            Error,
            Uncertainty,
            Feeler,
            From,
            Until,
            All,
            format,
            RulesInForce.Option,
        };
        command.SetAction(parsed => Run(parsed, session, parsed.GetValue(format) == Json));
        return command;
    }

    private static int Run(ParseResult parsed, Session session, bool asJson)
    {
        var found = Found(parsed);
        var loaded = RulesInForce.Sound(parsed);
        var recall = new RecallGauge(
            RecordPaths.Reading(loaded),
            new AssessRecord(loaded.Book, loaded.Site!)
        );
        var recalled = recall.Recall(found, parsed.GetRequiredValue(RecordPaths.Argument));
        RecordPaths.Tell(session.Error, recalled.Files.Problems);
        if (recalled.Kind is null)
        {
            session.Error.WriteLine(Unknown(recalled));
            return ExitCode.Unusable;
        }

        if (asJson)
        {
            session.Output.Write(
                System.Text.Encoding.UTF8.GetString(RecallFormat.Current.Write(RecallDocument.Of(recalled)))
            );
        }
        else
        {
            new RecallPrint(session.Screen, recalled, parsed.GetValue(All)).Print();
        }

        return !recalled.Files.Problems.IsEmpty ? ExitCode.Unusable
            : recalled.InDoubt.Any() ? ExitCode.NotGood
            : ExitCode.Good;
    }

    private static FoundError Found(ParseResult parsed)
    {
        var error = GivenValue.Length(parsed, Error)!;
        if (error.Value == Length.Zero)
        {
            throw new InputException(
                "--error: an error of nothing changes no verdict; accepted: a length such as `0.06 mm` or `-0.002 in`"
            );
        }

        var found = new FoundError
        {
            Instrument = new Id<Instrument>(parsed.GetRequiredValue(Instrument)),
            Error = error,
            Uncertainty = GivenValue.Length(parsed, Uncertainty),
            Leaf = GivenValue.Length(parsed, Feeler),
            From = GivenValue.Day(parsed, From),
            Until = GivenValue.Day(parsed, Until),
        };
        if (found.Uncertainty is { } doubt && doubt.Value < Length.Zero)
        {
            throw new InputException($"--uncertainty: `{doubt}` is below zero; accepted: zero or more");
        }

        return found.Until < found.From
            ? throw new InputException(
                "--until: this day is before --from; accepted: that day or a later one"
            )
            : found;
    }

    private static string Unknown(Recalled recalled) =>
        recalled.Files.Records == 0
            ? "there is no readable record among these files"
            : $"no record names the gauge `{recalled.Found.Instrument}`; accepted: one of "
                + string.Join(", ", recalled.Gauges);
}
