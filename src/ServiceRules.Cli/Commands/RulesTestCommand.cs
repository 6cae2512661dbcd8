using System.CommandLine;
using ServiceRules.Application.Library;
using ServiceRules.Application.RuleCases;
using ServiceRules.Application.RuleCases.Coverage;
using ServiceRules.Application.RuleCases.Mutation;
using ServiceRules.Cli.Printing;
using ServiceRules.Cli.Setup;

namespace ServiceRules.Cli.Commands;

/// <summary><c>rules test</c>: runs the cases beside the rules; on demand, what they leave out and do not notice.</summary>
internal static class RulesTestCommand
{
    private const string Json = "json";

    private static readonly Option<string?> Rule = new("--rule")
    {
        Description = "Only this rule: its cases, its coverage, its changes.",
        HelpName = "ID",
    };

    private static readonly Option<bool> All = new("--all")
    {
        Description = "Show every case, also those that came out as they say.",
    };

    private static readonly Option<bool> Coverage = new("--coverage")
    {
        Description = "Tell which verdicts, conditions and sides of limits no case exercises.",
    };

    private static readonly Option<bool> Full = new("--require-coverage")
    {
        Description = "The same, and exit with 1 when any is left.",
    };

    private static readonly Option<bool> Mutate = new("--mutate")
    {
        Description =
            "Change one thing of the rules after another (a limit moved, a condition dropped, an effect softened) and tell what no case notices; exit with 1 when anything is left.",
    };

    private static readonly Option<int> Minutes = new("--minutes")
    {
        Description = "With --mutate: try no more changes after so many minutes, 1 to 600.",
        HelpName = "N",
        DefaultValueFactory = _ => 30,
    };

    static RulesTestCommand() =>
        Minutes.Validators.Add(given =>
        {
            if (given.GetValueOrDefault<int>() is < 1 or > 600)
            {
                given.AddError("`--minutes` is out of range; accepted: a whole number from 1 to 600");
            }
        });

    public static Command Of(Session session)
    {
        var format = new Option<string>("--format")
        {
            Description = "text, or json: one object on one line.",
            DefaultValueFactory = _ => "text",
        };
        format.AcceptOnlyFromAmong("text", Json);
        var command = new Command(
            "test",
            "Runs the cases beside the rules: 0 all as they say (and nothing left of what was asked for), 1 not, 2 no such rule."
        )
        {
            Rule,
            All,
            Coverage,
            Full,
            Mutate,
            Minutes,
            format,
            RulesInForce.Option,
        };
        command.SetAction(parsed =>
        {
            var loaded = RulesInForce.Load(parsed);
            if (!loaded.IsSound)
            {
                foreach (var remark in loaded.Diagnostics)
                {
                    session.Error.WriteLine(remark);
                }

                return ExitCode.NotGood;
            }

            return Run(loaded, parsed, parsed.GetValue(format) == Json, session);
        });
        return command;
    }

    private static int Run(LoadedRules loaded, ParseResult parsed, bool isJson, Session session)
    {
        var rule = parsed.GetValue(Rule);
        if (rule is not null && !loaded.Book.Packs.Any(pack => pack.Rules.Any(one => one.Id.Text == rule)))
        {
            throw new InputException(
                $"there is no rule `{rule}` in `{loaded.Folder}`; accepted: the identity of a rule of this folder"
            );
        }

        var tested = TestRules.Run(loaded, rule);
        var isFull = parsed.GetValue(Full);
        var coverage = isFull || parsed.GetValue(Coverage) ? CoverRules.Of(loaded, tested, rule) : null;
        RulesMutated? mutated = null;
        if (parsed.GetValue(Mutate))
        {
            // A case that fails anyway would seem to notice everything.
            // One rule's change may show in the cases of another.
            var all = rule is null ? tested : TestRules.Run(loaded);
            mutated = all.IsGood ? Mutated(loaded, all, parsed, session) : null;
        }

        if (isJson)
        {
            session.Output.WriteLine(TestedJson.Of(tested, coverage, mutated));
        }
        else
        {
            TestedPrint.Cases(tested, parsed.GetValue(All), session);
            if (coverage is not null)
            {
                TestedPrint.Coverage(coverage, session);
            }

            if (mutated is not null)
            {
                TestedPrint.Mutation(mutated, session);
            }
        }

        if (parsed.GetValue(Mutate) && mutated is null)
        {
            session.Error.WriteLine(
                "no change was tried: first every case has to come out as it says, and every fixture released"
            );
        }

        return tested.IsGood && (!isFull || coverage!.IsFull) && (mutated is null || mutated.IsGood)
            ? ExitCode.Good
            : ExitCode.NotGood;
    }

    private static RulesMutated Mutated(
        LoadedRules loaded,
        RulesTested tested,
        ParseResult parsed,
        Session session
    )
    {
        var mutants = MutateRules.Mutants(loaded, parsed.GetValue(Rule));
        using var stop = new CancellationTokenSource(
            TimeSpan.FromMinutes(parsed.GetValue(Minutes)),
            session.Clock
        );
        return ProgressLine.Run(
            session.Progress,
            "changing the rules",
            mutants.Length,
            done => MutateRules.Run(loaded, tested, mutants, done, stop.Token)
        );
    }
}
