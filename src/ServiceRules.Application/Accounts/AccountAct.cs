namespace ServiceRules.Application.Accounts;

/// <summary>A privileged act, kept for good. Accounts and keys stand in it by what was drawn for them, never by name.</summary>
/// <param name="At">When.</param>
/// <param name="What">Which act.</param>
/// <param name="By">Who did it: <c>account:ID</c>, <c>key:ID</c>, <c>machine</c> for whoever has the folder, <c>nobody</c>
/// for somebody who was not signed in, <c>service</c> for the service itself.</param>
/// <param name="About">What it was done to.</param>
public sealed record AccountAct(DateTimeOffset At, string What, string By, string About)
{
    public const string Machine = "machine";
    public const string Nobody = "nobody";
    public const string Service = "service";

    public const string AccountMade = "account-made";
    public const string AccountRemoved = "account-removed";
    public const string AccountLocked = "account-locked";
    public const string AccountUnlocked = "account-unlocked";
    public const string RolesChanged = "roles-changed";
    public const string SignsInElsewhere = "signs-in-elsewhere";
    public const string PasswordReset = "password-reset";
    public const string PasswordChanged = "password-changed";
    public const string SignInLocked = "sign-in-locked";
    public const string FirstSecretMade = "first-secret-made";
    public const string FirstAdministrator = "first-administrator";
    public const string KeyMade = "key-made";
    public const string KeyRevoked = "key-revoked";
    public const string SiteAdded = "site-added";
    public const string NoticeGivenUp = "notice-given-up";
    public const string NoticeTriedAnew = "notice-tried-anew";
    public const string RulesStored = "rules-stored";
    public const string RulesActivated = "rules-activated";
    public const string WaiverEntered = "waiver-entered";
    public const string WaiverWithdrawn = "waiver-withdrawn";
    public const string RejudgingBegun = "rejudging-begun";
    public const string HoldAdded = "hold-added";
    public const string HoldLifted = "hold-lifted";
    public const string RetentionSet = "retention-set";
    public const string RetentionRan = "retention-ran";
    public const string PersonErased = "person-erased";

    /// <summary>Which roles were given and where there are several sites at which, or why a notice was given up, rules were activated or the history is judged again; else nothing.</summary>
    public string? Detail { get; init; }

    /// <summary>Its place among all acts; 0 before it is kept.</summary>
    public long Number { get; init; }

    /// <summary>Its place in the log; null: it stands beside it, as one from before acts were put there.</summary>
    public long? Entry { get; init; }

    public static string OfAccount(string id) => "account:" + id;

    /// <param name="what">Its entry and its recipient.</param>
    public static string OfNotice(string what) => "notice:" + what;

    /// <param name="digest">Names the packs and sheets.</param>
    public static string OfRules(string digest) => "rules:" + digest;

    /// <param name="subject">What its entry of the log is about.</param>
    public static string OfWaiver(string subject) => "waiver:" + subject;

    public static string OfKey(string id) => "key:" + id;

    /// <param name="name">The name of the site.</param>
    public static string OfSite(string name) => "site:" + name;
}
