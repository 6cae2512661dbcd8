namespace ServiceRules.Application.Accounts;

/// <summary>Accounts and acts in one transaction with the log.</summary>
public interface IAccountsInLog
{
    /// <summary>What changes accounts and keys.</summary>
    /// <param name="note">Takes the acts that tell of it; they are kept once their places are known.</param>
    IAccountWriting Writing(Action<AccountAct> note);

    /// <summary>Keeps an act for good, with its place in the log if it has one.</summary>
    void Keep(AccountAct act);

    /// <summary>When an act of this kind about this was last put into the log, and how many came since that were not.</summary>
    (DateTimeOffset? At, long Since) LastLogged(string what, string about);

    /// <summary>Whether the installation is one of several sites.</summary>
    bool AreSeveralSites();

    /// <summary>Names a person in no key any more.</summary>
    void Unname(string person);
}
