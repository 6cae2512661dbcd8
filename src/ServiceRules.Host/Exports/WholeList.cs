using ServiceRules.Application.Rows;

namespace ServiceRules.Host.Exports;

/// <summary>A list whole, the oldest first.</summary>
internal static class WholeList
{
    // Page by page: however long it is, no more of it is held, and nothing that is filed meanwhile waits.
    public static IEnumerable<TTold> Of<TFilter, TRow, TTold>(
        Func<TFilter, RowPaging, RowPage<TRow>> ask,
        TFilter filter,
        RowPaging paging,
        Func<TRow, TTold> tell
    )
    {
        paging = paging with { Most = RowPaging.MostRows, OldestFirst = true };
        while (true)
        {
            var page = ask(filter, paging);
            foreach (var row in page.Rows)
            {
                yield return tell(row);
            }

            if (page.Next is not { } next)
            {
                yield break;
            }

            paging = paging with { Beyond = next };
        }
    }
}
