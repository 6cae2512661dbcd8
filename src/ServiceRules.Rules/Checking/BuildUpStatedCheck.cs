using ServiceRules.Rules.Diagnostics;

namespace ServiceRules.Rules.Checking;

/// <summary>
/// Of energy that can build up again the procedure states how often it is checked, and how much is too much: what it does
/// not state, no record can be held against.
/// </summary>
internal static class BuildUpStatedCheck
{
    public static void Run(RuleLibrary library, Remarks remarks)
    {
        foreach (var procedure in library.Procedures)
        {
            for (var index = 0; index < procedure.Value.Sources.Length; index++)
            {
                var source = procedure.Value.Sources[index];
                if (source.Reaccumulates && (source.RecheckMinutes is null || source.RecheckLimit is null))
                {
                    remarks.Notice(
                        DiagnosticCode.BuildUpNotStated,
                        procedure,
                        FormattableString.Invariant($"/sources/{index}"),
                        $"`{source.Id}` can build up again, and the procedure does not state {Unsaid(source.RecheckMinutes is null, source.RecheckLimit is null)}",
                        "`recheckMinutes` and `recheckLimit` beside it"
                    );
                }
            }
        }
    }

    private static string Unsaid(bool often, bool much) =>
        (often, much) switch
        {
            (true, true) => "how often it is checked, nor how much is too much",
            (true, false) => "how often it is checked",
            _ => "how much is too much",
        };
}
