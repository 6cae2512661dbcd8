using ServiceRules.Application.Accounts;
using ServiceRules.Evidence;

namespace ServiceRules.Host.Accounts;

/// <summary>An account while it is being worked on.</summary>
internal sealed class AccountUser(Account stored)
{
    public Account Stored { get; set; } = stored;

    /// <summary>What is kept of the next change, in the transaction of the change.</summary>
    public AccountAct? Act { get; set; }

    /// <summary>What the making of it uses up, in the same transaction; null: nothing.</summary>
    public ContentHash? FirstSecret { get; set; }
}
