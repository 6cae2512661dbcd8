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
    private const string MustChangeClaim = "must-change";
    private const string ElsewhereClaim = "elsewhere";

    /// <summary>Whether it sees but what names its person.</summary>
    public bool IsLimited => (Roles & (Roles.Lead | Roles.Officer)) is Roles.None;

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
                MustChange = user.HasClaim(claim => claim.Type == MustChangeClaim),
                SignsInElsewhere = user.HasClaim(claim => claim.Type == ElsewhereClaim),
            }
            : null;

    /// <summary>Who asks, at a place that the table of access opens to nobody who is not known.</summary>
    public static Caller Known(ClaimsPrincipal user) =>
        Of(user) ?? throw new InvalidOperationException("somebody who is not known was let in");

    public static IEnumerable<Claim> Claims(Account account) =>
        Claims(AccountAct.OfAccount(account.Id), account.Roles, account.Person)
            .Concat(account.MustChange ? [new Claim(MustChangeClaim, "")] : [])
            .Concat(account.Elsewhere is null ? [] : [new Claim(ElsewhereClaim, "")]);

    public static IEnumerable<Claim> Claims(ApiKey key) =>
        Claims(AccountAct.OfKey(key.Id), key.Roles, key.Person);

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

    private static IEnumerable<Claim> Claims(string name, Roles roles, string? person) =>
        RoleWords
            .Words(roles)
            .Select(word => new Claim(ClaimTypes.Role, word))
            .Append(new Claim(NameClaim, name))
            .Concat(person is null ? [] : [new Claim(PersonClaim, person)]);
}
