using System.Collections.Immutable;
using ServiceRules.Evidence;

namespace ServiceRules.Application.Accounts;

/// <summary>What is asked of accounts, keys and acts.</summary>
public interface IAccountReading
{
    Account? Account(string id);

    /// <param name="plainName">The name as names are compared.</param>
    Account? AccountNamed(string plainName);

    /// <summary>Whoever signs in elsewhere, and is known by that there.</summary>
    Account? AccountElsewhere(Elsewhere elsewhere);

    /// <summary>All of them, in the order of their names.</summary>
    ImmutableArray<Account> Accounts();

    /// <summary>A key, whether it still opens anything or not.</summary>
    ApiKey? Key(ContentHash hash);

    /// <summary>All of them, the newest first.</summary>
    ImmutableArray<ApiKey> Keys();

    /// <summary>Privileged acts, the newest first.</summary>
    /// <param name="before">Only those before this place; null: from the newest on.</param>
    /// <param name="most">How many.</param>
    ImmutableArray<AccountAct> Acts(long? before, int most);

    FirstSecret? FirstSecret();

    /// <summary>The names of the sites of an installation of several, in the order in which they came; empty: it has one.</summary>
    ImmutableArray<string> Sites();
}
