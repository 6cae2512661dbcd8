using System.Collections.Immutable;
using Microsoft.AspNetCore.Http;
using ServiceRules.Application.Accounts;
using ServiceRules.Application.Ledger;
using ServiceRules.Application.Rows;
using ServiceRules.Host.Accounts;
using ServiceRules.Host.Problems;

namespace ServiceRules.Host.Sites;

/// <summary>The sites that are served here. This is the one place that says which registers and rules are those of a site.</summary>
/// <param name="All">Each of another name; at least one.</param>
/// <param name="AreSeveral">Whether the installation is one of several sites, also where one of them is served here alone.</param>
internal sealed record ServedSites(ImmutableArray<ServedSite> All, bool AreSeveral)
{
    /// <summary>The site that is meant where nobody asks: of a demo, or of an inbox that names none.</summary>
    public ServedSite Home => All[0];

    public ServedSite? Named(string? name) => All.FirstOrDefault(site => site.Name == name);

    /// <summary>What a caller sees: everything where there is one site, and nothing where none was ever given.</summary>
    /// <param name="granted">What stands with the account or the key.</param>
    /// <exception cref="LedgerStoreException">
    /// The installation became one of several since this instance was started, as what is granted shows: nobody is let in here.
    /// </exception>
    public string? SeenBy(string? granted) =>
        AreSeveral ? granted
        : granted is null ? GrantedSite.Every
        : throw new LedgerStoreException(
            StoreTrouble.Outdated,
            "an account or a key is of a site, and there was one site when this instance was started"
        );

    /// <summary>The sites that somebody may name.</summary>
    public IEnumerable<ServedSite> Of(Caller caller) => All.Where(site => caller.SeesSite(site.Name));

    /// <summary>What is wrong with what an account or a key is to be given; null when nothing.</summary>
    public string? Fault(Roles roles, string? person, string? site) =>
        AreSeveral ? Grant.Fault(roles, person, site, All.Select(one => one.Registers))
        : site is not null ? "there is one site here; accepted: no site"
        : Grant.Fault(roles, person, Home.Registers);

    /// <summary>
    /// The site that somebody asks of or sends to: their own, or the one that the query names. Of a site that is none of theirs
    /// they are told the same whether it is there or not.
    /// </summary>
    /// <returns>What is wrong with it; null when nothing.</returns>
    public IResult? Choose(Caller caller, string? named, out ServedSite site)
    {
        site = Home;
        if (!caller.SeesEverySite && (caller.Site is null || (named is not null && named != caller.Site)))
        {
            return Complaint.Of(
                ProblemKind.NotAllowed,
                "site: who asks is not of this site",
                caller.Site is { } own ? $"site={own}, or none" : "an account or a key of a site"
            );
        }

        var name = named ?? (caller.SeesEverySite ? null : caller.Site);
        if (name is null && All.Length == 1)
        {
            return null;
        }

        if (Named(name) is { } found)
        {
            site = found;
            return null;
        }

        return Complaint.Of(
            ProblemKind.BadRequest,
            name is null
                ? "site: it is not said of which site"
                : $"site: `{Shortened.To(name, 64)}` is not served here",
            "site=NAME, with a name that /api/sites lists"
        );
    }

    /// <summary>
    /// What is wrong with a site by which a list is asked for; null when nothing. A site that is not served any more, and of which
    /// records are stored, may be named by who is of every site.
    /// </summary>
    public IResult? OfList(Caller caller, string? named, OpenLedger ledger) =>
        named is null
        || (
            caller.SeesEverySite
            && !ledger
                .Rows.Records(new RecordFilter { Site = named }, new RowPaging { Most = 1 })
                .Rows.IsEmpty
        )
            ? null
            : Choose(caller, named, out _);

    /// <summary>Rules judge at every site: only who is of every one stores them and puts them in force.</summary>
    /// <returns>What is wrong with the caller; null when nothing.</returns>
    public IResult? OfEverySite(Caller caller) =>
        !AreSeveral || caller.SeesEverySite
            ? null
            : Complaint.Of(
                ProblemKind.NotAllowed,
                "the rules judge at every site, and who asks is of one",
                $"an account or a key of every site (`{GrantedSite.Every}`)"
            );

    /// <summary>The same for what corrects a record: of whoever is of every site, the site of the record.</summary>
    public IResult? ChooseFor(
        Caller caller,
        string? named,
        string record,
        OpenLedger ledger,
        out ServedSite site
    ) =>
        Choose(
            caller,
            named
                ?? (
                    AreSeveral && caller.SeesEverySite
                        ? ledger.Rows.Versions(record).LastOrDefault()?.Site
                        : null
                ),
            out site
        );
}
