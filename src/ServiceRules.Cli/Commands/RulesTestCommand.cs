using System.CommandLine;
using ServiceRules.Application.RuleCases;
using ServiceRules.Cli.Setup;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Reporting.Reports.Words;

namespace ServiceRules.Cli.Commands;

/// <summary><c>rules test</c>: runs the cases beside the rules.</summary>
internal static class RulesTestCommand
{
    public static Command Of(Session session)
    {
        var rule = new Option<string?>("--rule")
        {
            Description = "Only the cases of this rule.",
            HelpName = "ID",
        };
        var all = new Option<bool>("--all")
        {
            Description = "Show every case, also those that came out as they say.",
        };
        var command = new Command("test", "Runs the cases beside the rules: 0 all as they say, 1 not.")
        {
            rule,
            all,
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

            return Tell(TestRules.Run(loaded, parsed.GetValue(rule)), parsed.GetValue(all), session);
        });
        return command;
    }

    private static int Tell(RulesTested tested, bool showAll, Session session)
    {
        foreach (var result in tested.Cases.Where(one => showAll || one.Outcome != CaseOutcome.AsExpected))
        {
            var promise = result.Case.Case;
            var word = result.Outcome switch
            {
                CaseOutcome.AsExpected => "as it says",
                CaseOutcome.OtherVerdict => $"OTHER: found {Word(result.Found)}",
                _ => "CANNOT BE BUILT",
            };
            session.Tell(
                $"{result.Case.File}{result.Case.Pointer}: {promise.Rule}, {promise.Name}: expects {Word(promise.Expect)}, {word}; {result.Told}"
            );
        }

        foreach (var fixture in tested.Fixtures.Where(one => !one.IsReleased))
        {
            session.Tell($"{fixture.File}: a fixture must come out released, and does not");
            foreach (var told in fixture.Told)
            {
                session.Tell($"  {told}");
            }
        }

        var good = tested.Cases.Count(one => one.Outcome == CaseOutcome.AsExpected);
        session.Tell(
            $"{ReportWords.Counted(tested.Cases.Length, "case", "cases")}: {good} as they say, "
                + $"{tested.Cases.Count(one => one.Outcome == CaseOutcome.OtherVerdict)} otherwise, "
                + $"{tested.Cases.Count(one => one.Outcome == CaseOutcome.CannotBeBuilt)} could not be built; "
                + $"{ReportWords.Counted(tested.Fixtures.Length, "fixture", "fixtures")}, "
                + $"{tested.Fixtures.Count(one => one.IsReleased)} released"
        );
        return tested.IsGood ? ExitCode.Good : ExitCode.NotGood;
    }

    private static string Word(Verdict? verdict) =>
        verdict switch
        {
            Verdict.Met => "met",
            Verdict.NotMet => "not met",
            Verdict.Unproven => "unproven",
            Verdict.NotApplicable => "not applicable",
            _ => "nothing",
        };
}
