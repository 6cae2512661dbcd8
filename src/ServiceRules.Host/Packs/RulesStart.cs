using ServiceRules.Application.Accounts;
using ServiceRules.Application.Library;
using ServiceRules.Application.Packs;
using ServiceRules.Application.Waiving;
using ServiceRules.Host.Setup;

namespace ServiceRules.Host.Packs;

/// <summary>
/// What becomes of the packs and sheets of the folder that the service is started with: at the very first start they are put in
/// force. Later, what was put in force stays, and a folder with others is told.
/// </summary>
internal static class RulesStart
{
    private const string Option = "--activate-rules";

    /// <param name="folder">The folder of the service.</param>
    /// <param name="rules">The rules it is started with. They are sound.</param>
    /// <param name="site">The registers of a site that is judged by them.</param>
    /// <param name="activates">Whether they are put in force whatever is.</param>
    /// <param name="clock">The clock.</param>
    /// <returns>What a person should know.</returns>
    /// <exception cref="StartRefusedException">What is in force cannot judge.</exception>
    public static IReadOnlyList<string> Begin(
        ServiceFolder folder,
        LoadedRules rules,
        SiteRegisters site,
        bool activates,
        TimeProvider clock
    )
    {
        var given = RuleDocument.Of(rules.Book);
        var digest = given.Digest;
        var inForce = folder.Rules.Begin(
            digest,
            given.Bytes,
            clock.GetUtcNow(),
            "the rules of the folder at the first start"
        );
        if (inForce.Digest == digest)
        {
            return [];
        }

        if (activates)
        {
            _ = new StoreRules(folder.Ledger).Keep(given, AccountAct.Machine);
            var came = new ActivateRules(folder.Ledger, folder.Rules).Activate(
                digest,
                null,
                $"started with {Option}",
                AccountAct.Machine
            );
            return came is ActivationOutcome.Activated or ActivationOutcome.Stood
                ? [$"the rules of `{rules.Folder}` are in force from now on"]
                : throw new StartRefusedException(
                    $"the rules of `{rules.Folder}` cannot be put in force; they were erased from the ledger"
                );
        }

        return
            new ActiveRules(folder.Rules, new SiteWaivers(folder.Waivers, site)).Find(inForce.Digest) is null
            ? throw new StartRefusedException(
                $"the rules in force, {inForce.Digest}, cannot be read by this version; nothing was started",
                $"accepted: {Option}, which puts the rules of `{rules.Folder}` in force; or the version that stored them"
            )
            :
            [
                $"the rules of `{rules.Folder}` are not those in force, and do not judge: in force is {inForce.Digest} "
                    + $"since {inForce.At:yyyy-MM-dd}; {Option} puts those of the folder in force",
            ];
    }
}
