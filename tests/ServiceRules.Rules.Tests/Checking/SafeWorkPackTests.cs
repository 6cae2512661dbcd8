using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Checking;
using ServiceRules.Rules.Diagnostics;
using ServiceRules.Rules.Model;
using static ServiceRules.Rules.Tests.Checking.SoundLibrary;

namespace ServiceRules.Rules.Tests.Checking;

/// <summary>What can be wrong with citations, with rules on the programme and with who vouches for a procedure.</summary>
public class SafeWorkPackTests
{
    private const string ProcedureFile = "site/procedures/ride-on.json";

    private static readonly Dictionary<
        string,
        (RuleLibrary Library, string Code, string File, string Pointer)
    > Spoilt = new(StringComparer.Ordinal)
    {
        ["a citation for an unknown rule"] = (
            Cited(PackLayer.Jurisdiction, "unheard-of"),
            DiagnosticCode.UnknownRule,
            "law/a.citations.json",
            "/citations/0/rule"
        ),
        ["a citation in a pack of no jurisdiction"] = (
            Cited(PackLayer.Site, "key-kept"),
            DiagnosticCode.CitationOutOfPlace,
            "law/a.citations.json",
            "/citations/0"
        ),
        ["a jurisdiction that says nothing of what comes before it"] = (
            Cited(PackLayer.Jurisdiction, "key-kept", precedence: null),
            DiagnosticCode.NoPrecedence,
            "law/pack.json",
            ""
        ),
        ["a rule on the programme that holds"] = (
            SoundLibrary.With(Programme with { Severity = Severity.Hold }),
            DiagnosticCode.ProgrammeWeighs,
            "base/a.rules.json",
            "/rules/0/severity"
        ),
        ["a limit on the programme"] = (
            SoundLibrary.With(Limit with { Scope = RuleScope.Programme }),
            DiagnosticCode.ScopeDoesNotFit,
            "base/a.rules.json",
            "/rules/0/scope"
        ),
        ["energy that builds up again, and no word of how often it is checked"] = (
            With(SoundLibrary.Procedure with { Sources = [BuildsUp] }),
            DiagnosticCode.BuildUpNotStated,
            ProcedureFile,
            "/sources/0"
        ),
        ["an inspection by nobody known"] = (
            With(SoundLibrary.Procedure with { Inspection = Inspected(by: "nobody", with: "lead-01") }),
            DiagnosticCode.UnknownPerson,
            ProcedureFile,
            "/inspection/inspector"
        ),
        ["an inspection with nobody known"] = (
            With(SoundLibrary.Procedure with { Inspection = Inspected(by: "lead-01", with: "nobody") }),
            DiagnosticCode.UnknownPerson,
            ProcedureFile,
            "/inspection/people/0"
        ),
        ["a task on the live machine approved by nobody known"] = (
            With(
                SoundLibrary.Procedure with
                {
                    EnergisedTasks = [new(ServiceTask.Lap, new("nobody"), [], "engine off", null, null)],
                }
            ),
            DiagnosticCode.UnknownPerson,
            ProcedureFile,
            "/energisedTasks/0/approvedBy"
        ),
        ["a task on the live machine to be run by nobody known"] = (
            With(
                SoundLibrary.Procedure with
                {
                    EnergisedTasks =
                    [
                        new(ServiceTask.Lap, new("lead-01"), [], "engine off", null, null)
                        {
                            Operators = [new("lead-01"), new("nobody")],
                        },
                    ],
                }
            ),
            DiagnosticCode.UnknownPerson,
            ProcedureFile,
            "/energisedTasks/0/operators/1"
        ),
    };

    private static Rule Programme =>
        Step with
        {
            Scope = RuleScope.Programme,
            Check = new Check.EnergyControl(EnergyDuty.ProcedureInspected),
            Severity = Severity.Advise,
        };

    /// <summary>The codes that have an example here.</summary>
    private static EnergySource BuildsUp =>
        new()
        {
            Id = new("hydraulic"),
            Title = "Hydraulic pressure",
            Proof = "gauge at nothing",
            Reaccumulates = true,
        };

    public static IEnumerable<string> Codes => Spoilt.Values.Select(one => one.Code);

    public static TheoryData<string> Names() => [.. Spoilt.Keys];

    [Theory]
    [MemberData(nameof(Names))]
    public void Of_OneThingSpoilt_TellsIt(string name)
    {
        var (library, code, file, pointer) = Spoilt[name];

        var told = PackCheck.Of(library);

        Assert.Contains((code, file, pointer), told.Select(one => (one.Code, one.File, one.Pointer)));
        Assert.All(told, one => Assert.False(string.IsNullOrWhiteSpace(one.Right)));
    }

    [Fact]
    public void Of_CitedJurisdictionAdvisingProgrammeAndKnownPeople_TellsNothing()
    {
        Assert.Empty(PackCheck.Of(Cited(PackLayer.Jurisdiction, "key-kept")));
        Assert.Empty(PackCheck.Of(SoundLibrary.With(Limit, Programme)));
        Assert.Empty(
            PackCheck.Of(
                With(SoundLibrary.Procedure with { Inspection = Inspected(by: "lead-01", with: "lead-01") })
            )
        );
    }

    private static RuleLibrary With(Procedure procedure) =>
        Sound with
        {
            Procedures = [new(procedure, ProcedureFile, "")],
        };

    private static ProcedureInspection Inspected(string by, string with) =>
        new(new(2026, 2, 10), new(by), new("M-01"), [new(with)], [], false, []);

    private static RuleLibrary Cited(
        PackLayer layer,
        string rule,
        string? precedence = "local codes come first"
    )
    {
        var citation = new Citation(new(rule), [], "a text", ["1"], CitationStanding.TextRead);
        var law = Pack("law", layer);
        return Sound with
        {
            Packs =
            [
                .. Sound.Packs,
                law with
                {
                    Pack = law.Pack with { Precedence = precedence, Citations = [citation] },
                    Citations = [new(citation, "law/a.citations.json", "/citations/0")],
                },
            ],
        };
    }
}
