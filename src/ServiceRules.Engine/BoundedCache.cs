namespace ServiceRules.Engine;

/// <summary>
/// Keeps what is costly to make, made once per key however many threads ask, and no more than a stated number of
/// entries: the one that has been kept longest makes room. What is handed out stays valid after it was dropped.
/// A making that fails is not kept.
/// </summary>
public sealed class BoundedCache<TKey, TValue>
    where TKey : notnull
    where TValue : class
{
    private readonly Lock _gate = new();
    private readonly Dictionary<TKey, Lazy<TValue>> _entries;
    private readonly Queue<TKey> _byAge = new();
    private readonly int _most;

    /// <param name="most">How many entries are kept at most.</param>
    /// <param name="comparer">When two keys are the same; null: as they say themselves.</param>
    public BoundedCache(int most, IEqualityComparer<TKey>? comparer = null)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(most, 1);
        _most = most;
        _entries = new(comparer);
    }

    /// <summary>How many entries are kept.</summary>
    public int Count
    {
        get
        {
            lock (_gate)
            {
                return _entries.Count;
            }
        }
    }

    /// <summary>What is kept under a key, made where nothing is.</summary>
    public TValue GetOrMake(TKey key, Func<TValue> make)
    {
        Lazy<TValue> entry;
        lock (_gate)
        {
            if (!_entries.TryGetValue(key, out entry!))
            {
                entry = new Lazy<TValue>(make);
                Keep(key, entry);
            }
        }

        try
        {
            return entry.Value;
        }
        catch
        {
            Drop(key, entry);
            throw;
        }
    }

    private void Keep(TKey key, Lazy<TValue> entry)
    {
        while (_entries.Count >= _most && _byAge.TryDequeue(out var oldest))
        {
            _entries.Remove(oldest);
        }

        _entries.Add(key, entry);
        _byAge.Enqueue(key);
    }

    private void Drop(TKey key, Lazy<TValue> entry)
    {
        lock (_gate)
        {
            if (_entries.TryGetValue(key, out var kept) && ReferenceEquals(kept, entry))
            {
                _entries.Remove(key);
                Forget(key);
            }
        }
    }

    private void Forget(TKey key)
    {
        for (var left = _byAge.Count; left > 0; left--)
        {
            var next = _byAge.Dequeue();
            if (!_entries.Comparer.Equals(next, key))
            {
                _byAge.Enqueue(next);
            }
        }
    }
}
