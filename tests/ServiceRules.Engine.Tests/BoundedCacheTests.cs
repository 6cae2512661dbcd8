namespace ServiceRules.Engine.Tests;

public class BoundedCacheTests
{
    [Fact]
    public void GetOrMake_ManyThreadsOneKey_MakesOnce()
    {
        var cache = new BoundedCache<string, object>(4);
        var made = 0;
        var got = new object[16];

        Parallel.For(
            0,
            got.Length,
            i =>
                got[i] = cache.GetOrMake(
                    "k",
                    () =>
                    {
                        Interlocked.Increment(ref made);
                        return new object();
                    }
                )
        );

        Assert.Equal(1, made);
        Assert.All(got, g => Assert.Same(got[0], g));
    }

    [Fact]
    public void GetOrMake_MoreKeysThanTheBound_DropsTheOldest()
    {
        var cache = new BoundedCache<string, object>(2);
        var a = cache.GetOrMake("a", () => new object());
        var b = cache.GetOrMake("b", () => new object());
        cache.GetOrMake("c", () => new object());

        Assert.Equal(2, cache.Count);
        Assert.Same(b, cache.GetOrMake("b", () => new object()));
        Assert.NotSame(a, cache.GetOrMake("a", () => new object()));
    }

    [Fact]
    public void GetOrMake_MakingFails_IsTriedAgain()
    {
        var cache = new BoundedCache<string, object>(2);
        Assert.Throws<InvalidOperationException>(() =>
            cache.GetOrMake("a", () => throw new InvalidOperationException("no"))
        );

        Assert.Equal(0, cache.Count);
        Assert.NotNull(cache.GetOrMake("a", () => new object()));
    }
}
