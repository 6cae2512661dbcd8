using ServiceRules.Application.Accounts;

namespace ServiceRules.Application.Tests.Ledger;

/// <summary>An installation of one site that nobody signs in to.</summary>
internal sealed class NoAccounts : IAccountsInLog
{
    public IAccountWriting Writing(Action<AccountAct> note) => throw None();

    public void Keep(AccountAct act) => throw None();

    public (DateTimeOffset? At, long Since) LastLogged(string what, string about) => throw None();

    public bool AreSeveralSites() => false;

    public void Unname(string person) => throw None();

    private static NotSupportedException None() => new("there are no accounts here");
}
