namespace ServiceRules.Application.Accounts;

/// <summary>Makes an installation one of several sites. It stays one: what was given for a site is never open to another.</summary>
public static class SiteSettling
{
    /// <summary>
    /// Adds the sites that are served. Whoever was let in while there was one site is of the first of them from then on.
    /// </summary>
    /// <param name="store">Accounts and keys.</param>
    /// <param name="names">The names of the sites, the one that was there before first.</param>
    /// <param name="at">When.</param>
    public static void Settle(IAccountStore store, IReadOnlyList<string> names, DateTimeOffset at)
    {
        ArgumentNullException.ThrowIfNull(store);
        ArgumentNullException.ThrowIfNull(names);
        if (names.Count < 2 && store.Sites().IsEmpty)
        {
            return;
        }

        _ = store.Write(writing =>
        {
            var isFirst = writing.Sites().IsEmpty;
            foreach (var name in names)
            {
                if (writing.AddSite(name))
                {
                    writing.Note(new(at, AccountAct.SiteAdded, AccountAct.Machine, AccountAct.OfSite(name)));
                }
            }

            if (isFirst)
            {
                writing.SettleAt(names[0]);
            }

            return true;
        });
    }
}
