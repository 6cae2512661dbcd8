using ServiceRules.Application.Accounts;
using ServiceRules.Application.Library;
using ServiceRules.Application.Notices;
using ServiceRules.Application.Packs;
using ServiceRules.Application.Rows;
using ServiceRules.Application.Submitting;
using ServiceRules.Application.Waiving;
using ServiceRules.Host.Filing;
using ServiceRules.Host.Notices;
using ServiceRules.Host.Setup;
using ServiceRules.Host.Watching;

namespace ServiceRules.Host.Sites;

/// <summary>Makes the sites out of what the service is started with.</summary>
internal static class SitesMaking
{
    /// <summary>Sees to it that accounts and keys are of a site, where several are served.</summary>
    /// <exception cref="StartRefusedException">
    /// Two sites have one name, one has a name that is none, or the records here are of a site that is not served.
    /// </exception>
    public static void Settle(ServiceSettings settings, ServiceFolder folder)
    {
        var names = All(settings).Select(one => one.Site!.Name).ToList();
        if (names.Contains(GrantedSite.Every))
        {
            throw new StartRefusedException(
                $"a site is called `{GrantedSite.Every}`, which stands for every site; accepted: another name in its site.json"
            );
        }

        if (
            names.GroupBy(name => name, StringComparer.Ordinal).FirstOrDefault(same => same.Count() > 1) is
            { Key: var twice }
        )
        {
            throw new StartRefusedException(
                $"two sites are called `{twice}`; accepted: a name of its own in each site.json"
            );
        }

        Known(settings, folder, names);
        SiteSettling.Settle(folder.Accounts, names, settings.Clock.GetUtcNow());
    }

    // Left out by mistake, --rules would have a shop's jobs judged and filed by the registers of another one. Where there are several, one
    // of them may be left out.
    private static void Known(ServiceSettings settings, ServiceFolder folder, IReadOnlyList<string> names)
    {
        var newest = folder
            .Ledger.Rows.Records(new RecordFilter { AllVersions = true }, new RowPaging { Most = 1 })
            .Rows;
        if (newest is [{ Site: { } site }] && !names.Contains(site) && folder.Accounts.Sites().IsEmpty)
        {
            throw new StartRefusedException(
                $"the records in `{settings.DataFolder}` are of the site `{site}`, and the rules in `{settings.Rules.Folder}` are of `{string.Join("`, `", names)}`; nothing was started; accepted: --rules with the folder of that site, or --data with another folder"
            );
        }
    }

    public static ServedSites Make(
        ServiceSettings settings,
        ServiceFolder folder,
        GroupFiling filing,
        NoticeRecipients recipients,
        NoticeBell bell,
        ServiceMeter meter
    )
    {
        var areSeveral = !folder.Accounts.Sites().IsEmpty;
        return new([.. All(settings).Select(Served)], areSeveral);

        ServedSite Served(LoadedRules rules)
        {
            var site = rules.Site!;
            var own = areSeveral ? site.Name : null;
            var active = new ActiveRules(folder.Rules, new SiteWaivers(folder.Waivers, site));
            return new(
                rules.Folder,
                site,
                rules.Library,
                active,
                new FilingDesk(
                    folder.Ledger,
                    new SubmittingNow(active, folder.Ledger, filing, recipients, own),
                    bell,
                    meter,
                    own
                )
            );
        }
    }

    /// <summary>The site that is meant where nobody names one, with the folder that it stands in.</summary>
    public static LoadedRules HomeOf(ServiceSettings settings) => All(settings).First();

    private static IEnumerable<LoadedRules> All(ServiceSettings settings) =>
        settings.Sites.Prepend(settings.Rules).Where(rules => rules.Site is not null);
}
