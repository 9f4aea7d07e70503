function(step)
  execute_process(COMMAND ${ARGV} COMMAND_ECHO STDOUT COMMAND_ERROR_IS_FATAL ANY)
endfunction()

file(REMOVE_RECURSE ${work})
step(${CMAKE_COMMAND} --install ${build} --prefix ${work}/prefix)
step(${CMAKE_COMMAND} -S ${source} -B ${work}/build -G Ninja -DCMAKE_PREFIX_PATH=${work}/prefix
     -DCMAKE_CXX_COMPILER=${compiler} -DCMAKE_CXX_FLAGS=${flags} -DCMAKE_BUILD_TYPE=Release)
step(${CMAKE_COMMAND} --build ${work}/build)
step(${work}/build/consumer ${network})
step(${work}/prefix/bin/whichwire --version)
foreach(file share/man/man1/whichwire.1 share/bash-completion/completions/whichwire
             share/whichwire/topologies/findings.schema.json include/whichwire/findings.hpp)
  if(NOT EXISTS ${work}/prefix/${file})
    message(FATAL_ERROR "not installed: ${file}")
  endif()
endforeach()
