using System.CommandLine;
using ServiceRules.Application.Assessing;
using ServiceRules.Application.Explaining;
using ServiceRules.Cli.Printing;
using ServiceRules.Cli.Setup;
using ServiceRules.Formats.Json;

namespace ServiceRules.Cli.Commands;

/// <summary><c>rules explain RECORD [RULE]</c>: why each rule did or did not apply, and what its answer rests on.</summary>
internal static class RulesExplainCommand
{
    private static readonly Argument<FileInfo> Record = new("RECORD") { Description = "A service record." };

    private static readonly Argument<string?> Rule = new("RULE")
    {
        Description = "The rule. Default: every rule.",
        Arity = ArgumentArity.ZeroOrOne,
    };

    public static Command Of(Session session)
    {
        var all = new Option<bool>("--all")
        {
            Description =
                "Of every rule the whole account, also of what is in. One rule is always told whole.",
        };
        var command = new Command(
            "explain",
            "Tells why each rule did or did not apply to a record, where it comes from and what its answer rests on: 0 explained, 2 unreadable input or no such rule."
        )
        {
            Record,
            Rule,
            all,
            RulesInForce.Option,
        };
        command.SetAction(parsed => Run(parsed, parsed.GetValue(all), session));
        return command;
    }

    private static int Run(ParseResult parsed, bool showAll, Session session)
    {
        var loaded = RulesInForce.Sound(parsed);
        var file = parsed.GetRequiredValue(Record);
        var bytes = InputFile.ReadUpTo(file.FullName, ReadLimits.Record.Bytes);
        switch (RulesInForce.Judging(loaded).Assess(bytes))
        {
            case AssessOutcome.Refused refused:
                ProblemPrint.Write(session.Error, file.ToString(), refused.Problems);
                return ExitCode.Unusable;
            case AssessOutcome.Judged { Assessed: var assessed }:
                var rule = parsed.GetValue(Rule);
                var explaining = new ExplainRules(loaded);
                var explained = explaining.Explain(assessed, rule);
                if (rule is not null && explained.Rules.IsEmpty)
                {
                    throw new InputException(Unknown(rule, loaded.Folder, explaining));
                }

                new ExplainPrint(session.Screen, explained, showAll || rule is not null).Print();
                return ExitCode.Good;
            default:
                throw new InvalidOperationException("an unknown outcome of judging");
        }
    }

    private static string Unknown(string rule, string folder, ExplainRules explaining)
    {
        var near = explaining.Near(rule);
        return $"there is no rule `{rule}` in `{folder}`; accepted: "
            + (
                near.IsEmpty
                    ? "the identity of a rule, or none for every rule"
                    : $"the identity of a rule, such as {string.Join(", ", near.Select(name => $"`{name}`"))}"
            );
    }
}
