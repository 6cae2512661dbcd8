using System.Collections.Immutable;
using ServiceRules.Rules.Diagnostics;

namespace ServiceRules.Rules.Checking;

/// <summary>
/// Checks a folder of rules as a whole: what each document says was already judged when it was read; here it is held
/// against the others. Pure: the same library gives the same diagnostics, ordered by file and place.
/// </summary>
public static class PackCheck
{
    /// <summary>Everything that is wrong or odd; lines and columns are not known here.</summary>
    /// <param name="library">The folder.</param>
    /// <param name="today">The day on which rules and texts are to be in force; null: whatever their days.</param>
    public static ImmutableArray<Diagnostic> Of(RuleLibrary library, DateOnly? today = null)
    {
        ArgumentNullException.ThrowIfNull(library);
        var remarks = new Remarks();
        IdentityCheck.Run(library, remarks);
        SheetCheck.Run(library, remarks);
        TaughtProcedureCheck.Run(library, remarks);
        DisturbanceLoopCheck.Run(library, remarks);
        RuleFormCheck.Run(library, remarks);
        RuleReachCheck.Run(library, remarks);
        TaskReachCheck.Run(library, remarks);
        LeftOutCheck.Run(library, remarks);
        StatedQuantityCheck.Run(library, remarks);
        RulesTogetherCheck.Run(library, remarks);
        LayerCheck.Run(library, remarks);
        CitationCheck.Run(library, remarks);
        CaseCoverageCheck.Run(library, remarks);
        RegisterCheck.Run(library, remarks);
        OrdersCheck.Run(library, remarks);
        WaiversCheck.Run(library, remarks);
        BuildUpStatedCheck.Run(library, remarks);
        GaugeReachCheck.Run(library, remarks);
        if (today is { } day)
        {
            DaysCheck.Run(library, day, remarks);
        }

        return remarks.InOrder();
    }
}
