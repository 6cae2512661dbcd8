using ServiceRules.Rules.Diagnostics;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Checking;

/// <summary>Every identity names one thing. A rule may stand once in each layer.</summary>
internal static class IdentityCheck
{
    public static void Run(RuleLibrary library, Remarks remarks)
    {
        RulesOfALayer(library, remarks);
        Once(
            library.Packs.Select(pack => new Placed<RulePack>(pack.Pack, pack.File, "")),
            "pack",
            p => p.Id.Text,
            remarks
        );
        Once(library.Sheets, "limit sheet", sheet => sheet.Id.Text, remarks);
        Once(library.Orders, "setting order", order => order.Id.Text, remarks);
        Once(library.Procedures, "procedure", procedure => procedure.Id.Text, remarks);
        Once(library.People, "person", person => person.Id.Text, remarks);
        Once(library.Locks, "lock", device => device.Id.Text, remarks);
        Once(library.Machines, "machine", machine => machine.Id.Text, remarks);
        Once(library.Instruments, "instrument", gauge => gauge.Id.Text, remarks);
    }

    private static void RulesOfALayer(RuleLibrary library, Remarks remarks)
    {
        var known = new Dictionary<(PackLayer, string), Placed<Rule>>();
        foreach (var pack in library.Packs)
        {
            foreach (var rule in pack.Rules)
            {
                var key = (pack.Pack.Layer, rule.Value.Id.Text);
                if (!known.TryAdd(key, rule))
                {
                    remarks.Error(
                        DiagnosticCode.RuleTwice,
                        rule,
                        "/id",
                        $"rule `{rule.Value.Id}` stands twice in the {FileWord.Of(pack.Pack.Layer)} layer, first in {known[key].File} at {known[key].Pointer}",
                        "an identity of its own, or one of the two rules"
                    );
                }
            }
        }
    }

    private static void Once<T>(
        IEnumerable<Placed<T>> all,
        string kind,
        Func<T, string> identity,
        Remarks remarks
    )
        where T : notnull
    {
        var known = new Dictionary<string, Placed<T>>(StringComparer.Ordinal);
        foreach (var placed in all)
        {
            var id = identity(placed.Value);
            if (!known.TryAdd(id, placed))
            {
                remarks.Error(
                    DiagnosticCode.IdentityTwice,
                    placed,
                    "/id",
                    $"{kind} `{id}` stands twice, first in {known[id].File}",
                    $"each {kind} once"
                );
            }
        }
    }
}
