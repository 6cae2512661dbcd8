using System.Collections.Immutable;
using System.Security.Claims;
using ServiceRules.Application.Accounts;
using ServiceRules.Application.SafeWork;
using ServiceRules.Domain;
using ServiceRules.Domain.Records;
using ServiceRules.Formats.Records;

namespace ServiceRules.Host.Accounts;

/// <summary>Who asks.</summary>
/// <param name="Name">As acts name it: <c>account:ID</c> or <c>key:ID</c>.</param>
/// <param name="Roles">What it may do.</param>
/// <param name="Person">The person of the register that it stands for.</param>
internal sealed record Caller(string Name, Roles Roles, string? Person)
{
    private const string NameClaim = "caller";
    private const string PersonClaim = "person";
    private const string SiteClaim = "site";
    private const string MustChangeClaim = "must-change";
    private const string ElsewhereClaim = "elsewhere";

    /// <summary>Whether it sees but what names its person.</summary>
    public bool IsLimited => (Roles & (Roles.Lead | Roles.Officer)) is Roles.None;

    /// <summary>The site whose records it sees, see <see cref="GrantedSite"/>; null: of none.</summary>
    public string? Site { get; init; }

    public bool SeesEverySite => Site == GrantedSite.Every;

    /// <summary>The sites whose records it sees; null: of every one.</summary>
    public ImmutableArray<string>? Sites => GrantedSites.Of(Site);

    /// <summary>Whether the password is changed before anything else.</summary>
    public bool MustChange { get; init; }

    /// <summary>Whether another place vouched for it, so that it has no password here.</summary>
    public bool SignsInElsewhere { get; init; }

    public bool IsKey => Name.StartsWith("key:", StringComparison.Ordinal);

    /// <summary>Null where nobody is known.</summary>
    public static Caller? Of(ClaimsPrincipal user) =>
        user.Identity?.IsAuthenticated is true && user.FindFirstValue(NameClaim) is { } name
            ? new Caller(
                name,
                RoleWords.Read(user.FindAll(ClaimTypes.Role).Select(claim => claim.Value)),
                user.FindFirstValue(PersonClaim)
            )
            {
                Site = user.FindFirstValue(SiteClaim),
                MustChange = user.HasClaim(claim => claim.Type == MustChangeClaim),
                SignsInElsewhere = user.HasClaim(claim => claim.Type == ElsewhereClaim),
            }
            : null;

    /// <summary>Who asks, at a place that the table of access opens to nobody who is not known.</summary>
    public static Caller Known(ClaimsPrincipal user) =>
        Of(user) ?? throw new InvalidOperationException("somebody who is not known was let in");

    /// <param name="account">The account.</param>
    /// <param name="site">The site whose records it sees here.</param>
    public static IEnumerable<Claim> Claims(Account account, string? site) =>
        Claims(AccountAct.OfAccount(account.Id), account.Roles, account.Person, site)
            .Concat(account.MustChange ? [new Claim(MustChangeClaim, "")] : [])
            .Concat(account.Elsewhere is null ? [] : [new Claim(ElsewhereClaim, "")]);

    /// <param name="key">The key.</param>
    /// <param name="site">The site whose records it sees here.</param>
    public static IEnumerable<Claim> Claims(ApiKey key, string? site) =>
        Claims(AccountAct.OfKey(key.Id), key.Roles, key.Person, site);

    /// <summary>Whether records of a site may be shown.</summary>
    /// <param name="site">Its name; null: it is not known any more of which site they are.</param>
    public bool SeesSite(string? site) => SeesEverySite || (site is not null && site == Site);

    /// <summary>Whether a record may be shown.</summary>
    /// <param name="record">As it is kept; null: it is not kept.</param>
    public bool Sees(ReadOnlyMemory<byte>? record) =>
        !IsLimited
        || (
            record is { } kept
            && RecordFormat.Current.Read(kept).TryGet(out var read, out _, out _)
            && IsNamedIn(read)
        );

    public bool IsNamedIn(ServiceRecord record) =>
        Person is { } person && NamedInRecord.Has(record, new Id<Participant>(person));

    private static IEnumerable<Claim> Claims(string name, Roles roles, string? person, string? site) =>
        RoleWords
            .Words(roles)
            .Select(word => new Claim(ClaimTypes.Role, word))
            .Append(new Claim(NameClaim, name))
            .Concat(person is null ? [] : [new Claim(PersonClaim, person)])
            .Concat(site is null ? [] : [new Claim(SiteClaim, site)]);
}
