using System.Collections.Immutable;
using ServiceRules.Domain.Site;
using ServiceRules.Rules.Diagnostics;
using ServiceRules.Rules.Model;

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

    /// <summary>
    /// What is wrong with a further waiver: by the rules that judge, the people of a folder, and the waivers that stand. The places
    /// are those in the waiver.
    /// </summary>
    /// <param name="library">The folder of the site.</param>
    /// <param name="book">The rules that judge.</param>
    /// <param name="standing">Waivers that count beside those of the folder.</param>
    /// <param name="waiver">The further one.</param>
    public static ImmutableArray<Diagnostic> OfWaiver(
        RuleLibrary library,
        RuleBook book,
        ImmutableArray<Waiver> standing,
        Waiver waiver
    )
    {
        ArgumentNullException.ThrowIfNull(library);
        ArgumentNullException.ThrowIfNull(book);
        const string further = "\uFFFF";
        var remarks = new Remarks();
        var judging = new RuleLibrary
        {
            Packs =
            [
                .. book.Packs.Select(pack => new PlacedPack(
                    pack,
                    "",
                    [.. pack.Rules.Select(rule => new Placed<Rule>(rule, "", ""))]
                )),
            ],
            People = library.People,
            Waivers =
            [
                .. library.Waivers,
                .. standing.Select(one => new Placed<Waiver>(one, "", "")),
                new Placed<Waiver>(waiver, further, ""),
            ],
        };
        RegisterCheck.Waivers(judging, remarks);
        WaiversCheck.Run(judging, remarks);
        return
        [
            .. remarks
                .InOrder()
                .Where(remark => remark.File == further)
                .Select(remark => remark with { File = "" }),
        ];
    }
}
