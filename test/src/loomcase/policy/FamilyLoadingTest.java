package loomcase.policy;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.File;
import java.net.URL;
import java.net.URLClassLoader;
import java.nio.file.Path;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.concurrent.ConcurrentSkipListSet;
import org.junit.jupiter.api.Test;

/** Who asks one family of rules does not pay for the others. */
class FamilyLoadingTest {
    /** Loads the program anew and remembers each class that it needed. */
    private static final class Recording extends URLClassLoader {
        private final Set<String> found = new ConcurrentSkipListSet<>();

        Recording() throws Exception {
            super(classpath(), ClassLoader.getPlatformClassLoader());
        }

        private static URL[] classpath() throws Exception {
            String[] paths = System.getProperty("java.class.path").split(File.pathSeparator);
            URL own = Policy.class.getProtectionDomain().getCodeSource().getLocation();
            TreeSet<String> urls = new TreeSet<>(List.of(own.toString()));
            for (String path : paths) urls.add(Path.of(path).toUri().toURL().toString());
            for (URL url : urlsOf(Policy.class.getClassLoader())) urls.add(url.toString());
            URL[] all = new URL[urls.size()];
            int i = 0;
            for (String url : urls) all[i++] = new URL(url);
            return all;
        }

        private static URL[] urlsOf(ClassLoader loader) {
            return loader instanceof URLClassLoader known ? known.getURLs() : new URL[0];
        }

        @Override
        protected Class<?> findClass(String name) throws ClassNotFoundException {
            found.add(name);
            return super.findClass(name);
        }
    }

    @Test
    void readingCodesLoadsNoRepairOrClaimRules() throws Exception {
        ClassLoader before = Thread.currentThread().getContextClassLoader();
        try (Recording loader = new Recording()) {
            Thread.currentThread().setContextClassLoader(loader);
            Class<?> policy = loader.loadClass(Policy.class.getName());
            Object rules = policy.getMethod("builtIn").invoke(null);
            policy.getMethod("decide", List.class, List.class).invoke(rules, List.of(), List.of());

            Set<String> families = new TreeSet<>();
            loader.found.stream()
                    .filter(name -> name.startsWith("loomcase.rules."))
                    .forEach(name -> families.add(name.split("\\.")[2]));
            assertTrue(loader.found.contains(Policy.class.getName()));
            assertEquals(Set.of("codes"), families);
        } finally {
            Thread.currentThread().setContextClassLoader(before);
        }
    }
}
